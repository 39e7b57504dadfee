/**
 * Who is whose neighbour. `neighbours[i]` holds the indices of place i's neighbours, ascending, never i itself. Made by
 * `summarise`, which every way of choosing neighbours ends with.
 */
export interface NeighbourGraph {
  neighbours: number[][];
  /** Places without a neighbour, ascending; a place that only others name is none. */
  islands: number[];
  /** Connected parts, whichever way a link points: the largest first, places ascending. An island is one of its own. */
  components: number[][];
}

/** Where places lie: degrees on the sphere (`x` longitude, `y` latitude), or a plane of any one unit. */
export interface Points {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  metric: 'great circle' | 'plane';
}
