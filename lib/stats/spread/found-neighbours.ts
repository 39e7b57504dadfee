import { StatsError } from '../errors';
import type { Weights } from '../weights';
import type { Arrivals, AtRisk } from './types';

/**
 * For each row of the places at risk: how many neighbours of the place were found in an earlier season.
 *
 * @policy Finds of the same season do not count: which of two was first is unknown. A place without neighbours has 0.
 * @throws StatsError `bad argument` where the weights are of other places
 * @cost O(rows · neighbours)
 */
export function foundNeighbours(rows: AtRisk, { firstFound }: Arrivals, weights: Weights): Int32Array {
  const { places, offsets, neighbours } = weights;
  if (places !== firstFound.length) {
    throw new StatsError('bad argument', `Got weights of ${places} places, counts of ${firstFound.length}.`);
  }
  return rows.place.map((place, row) => {
    let count = 0;
    for (let at = offsets[place]!; at < offsets[place + 1]!; at += 1) {
      const found = firstFound[neighbours[at]!]!;
      if (found !== -1 && found < rows.season[row]!) count += 1;
    }
    return count;
  });
}
