import { squaredDistances } from './squared-distances';
import { summarise } from './summarise';
import type { NeighbourGraph, Points } from './types';

/**
 * The k places nearest to each place. Nearness need not be mutual: `madeMutual` makes it so. Every place has k
 * neighbours however far they are, so sparse testing leaves no islands; over the tested places alone it is the check of
 * what contiguity finds.
 *
 * @param k 1 … places − 1
 * @policy Of places equally far the one named first counts as nearer.
 * @throws RangeError for another k, or a coordinate that is no finite number
 * @cost O(places²) time, O(places) memory: 0.1 s for 3,106 counties
 */
export function nearest(points: Points, k: number): NeighbourGraph {
  const distances = squaredDistances(points);
  const places = points.x.length;
  if (!(Number.isInteger(k) && k >= 1 && k < places)) {
    throw new RangeError(
      `Got k = ${k} for ${places} places; expected a whole number from 1 to ${places - 1}.`,
    );
  }
  const found = new Int32Array(k);
  const far = new Float64Array(k);
  const lists = Array.from({ length: places }, (_, i) => {
    const from = distances(i);
    far.fill(Number.POSITIVE_INFINITY);
    for (let j = 0; j < places; j += 1) {
      if (j === i || from[j]! >= far[k - 1]!) continue;
      let at = k - 1;
      for (; at > 0 && far[at - 1]! > from[j]!; at -= 1) {
        far[at] = far[at - 1]!;
        found[at] = found[at - 1]!;
      }
      far[at] = from[j]!;
      found[at] = j;
    }
    return [...found];
  });
  return summarise(lists);
}

/** Neighbours of which at least one names the other. */
export function madeMutual({ neighbours }: Pick<NeighbourGraph, 'neighbours'>): NeighbourGraph {
  const lists = neighbours.map((list) => [...list]);
  neighbours.forEach((list, i) => {
    for (const j of list) lists[j]!.push(i);
  });
  return summarise(lists);
}
