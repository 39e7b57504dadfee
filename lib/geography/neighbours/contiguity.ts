import type { MultiPolygon, Polygon, Position } from 'geojson';
import { summarise } from './summarise';
import type { NeighbourGraph } from './types';

/** `queen`: a common corner is enough. `rook`: a common stretch of outline is needed. */
export type Contiguity = 'queen' | 'rook';

/**
 * Places that touch. Coordinates are compared as they stand, as in outlines made from one topology, where both sides of
 * a line have the very same numbers; outlines drawn apart from each other do not touch.
 *
 * @param outlines one for each place; holes count as outline, so a place inside another is its neighbour
 * @policy Only vertices are compared: a corner that meets another outline between two vertices does not touch it.
 * @source queen and rook as in Cliff & Ord 1981, Spatial Processes, p. 18 (from memory)
 * @cost O(vertices)
 */
export function touching(
  outlines: readonly (Polygon | MultiPolygon)[],
  contiguity: Contiguity,
): NeighbourGraph {
  const lists = outlines.map(() => new Set<number>());
  const owners = new Map<number, number[]>();
  const vertexOf = vertexNumbers();
  outlines.forEach((outline, place) => {
    for (const ring of ringsOf(outline)) {
      for (let at = 1; at < ring.length; at += 1) {
        const vertex = vertexOf(ring[at]!);
        const before = vertexOf(ring[at - 1]!);
        if (contiguity === 'queen') meet(vertex, place);
        else if (before !== vertex) meet(edgeNumber(before, vertex), place);
      }
    }
  });
  return summarise(lists);

  function meet(shared: number, place: number): void {
    const others = owners.get(shared);
    if (!others) owners.set(shared, [place]);
    else if (!others.includes(place)) {
      for (const other of others) {
        lists[other]!.add(place);
        lists[place]!.add(other);
      }
      others.push(place);
    }
  }
}

function ringsOf(outline: Polygon | MultiPolygon): Position[][] {
  return outline.type === 'Polygon' ? outline.coordinates : outline.coordinates.flat();
}

/** Numbers vertices as they come; the same coordinates get the same number. */
function vertexNumbers(): (position: Position) => number {
  const columns = new Map<number, Map<number, number>>();
  let vertices = 0;
  return ([x, y]) => {
    const column = columns.get(x!) ?? new Map<number, number>();
    columns.set(x!, column);
    const vertex = column.get(y!) ?? vertices;
    if (vertex === vertices) {
      column.set(y!, vertex);
      vertices += 1;
    }
    return vertex;
  };
}

/** One number for both directions of an edge; exact for up to 2^26 vertices. */
function edgeNumber(a: number, b: number): number {
  return Math.min(a, b) * 67_108_864 + Math.max(a, b);
}
