/** Where and when: degrees on the sphere (`x` longitude, `y` latitude), or a plane of any one unit. */
export interface SpaceTimePoints {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  metric: 'great circle' | 'plane';
  /** In any one unit, as seasons or days. */
  time: ArrayLike<number>;
}

export interface PermutationRun {
  /** As 999. */
  permutations: number;
  seed: number;
}

/** Which pairs are close: at most so far apart, and at most so long. Every combination is looked at. */
export interface KnoxGrid {
  /** Ascending, 0 or more, in km (`great circle`) or the plane's unit. */
  distances: readonly number[];
  /** Ascending, 0 or more, in the unit of time. */
  lags: readonly number[];
}

/** Pairs close in space and time at one distance and lag. */
export interface KnoxCell {
  distance: number;
  lag: number;
  observed: number;
  /** Mean and standard deviation over the permutations. */
  expected: number;
  deviation: number;
  /** (M + 1) / (R + 1), M of R permutations with as many pairs or more: in (0, 1]. */
  p: number;
  /** The same for the smallest p of the whole grid: any cell is flagged by chance only as often as the level says. */
  adjusted: number;
}
