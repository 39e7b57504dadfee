import type { NeighbourGraph } from './types';

/**
 * Brings lists of neighbours into order and says which places stand alone and what hangs together.
 *
 * @param lists for each place the indices of its neighbours, in any order; a place beside itself, and a neighbour named
 *   again, are dropped (outlines can touch themselves)
 * @throws RangeError for an index that is no place
 * @cost O(links · log degree)
 */
export function summarise(lists: readonly Iterable<number>[]): NeighbourGraph {
  const neighbours = lists.map((list, i) => {
    const others = new Set(list);
    others.delete(i);
    for (const j of others) {
      if (!(Number.isInteger(j) && j >= 0 && j < lists.length)) {
        throw new RangeError(
          `Place ${i} has the neighbour ${j}; expected places of 0 … ${lists.length - 1}.`,
        );
      }
    }
    return [...others].sort((a, b) => a - b);
  });
  const islands = neighbours.flatMap((list, i) => (list.length === 0 ? [i] : []));
  return { neighbours, islands, components: componentsOf(neighbours) };
}

function componentsOf(neighbours: readonly (readonly number[])[]): number[][] {
  const parent = Int32Array.from(neighbours.keys());
  const rootOf = (place: number): number => {
    let at = place;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  neighbours.forEach((list, i) => {
    for (const j of list) parent[rootOf(j)] = rootOf(i);
  });
  const members = new Map<number, number[]>();
  for (const place of neighbours.keys()) {
    const root = rootOf(place);
    const component = members.get(root);
    if (component) component.push(place);
    else members.set(root, [place]);
  }
  return [...members.values()].sort((a, b) => b.length - a.length || a[0]! - b[0]!);
}
