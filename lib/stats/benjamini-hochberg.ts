import { StatsError } from './errors';

/**
 * Adjusted p: rejecting where it is at most q keeps the expected share of false finds among all finds at q or below
 * (for independent or positively dependent tests).
 *
 * @param p 0 … 1, in any order
 * @returns adjusted p in the same order, 0 … 1
 * @source Benjamini & Hochberg 1995, Journal of the Royal Statistical Society B 57:289–300
 */
export function benjaminiHochberg(p: ArrayLike<number>): Float64Array {
  const adjusted = new Float64Array(p.length);
  const order = Array.from(p, (value, i) => {
    if (!(value >= 0 && value <= 1))
      throw new StatsError('bad argument', `p ${i} is ${value}; expected 0 … 1.`);
    return i;
  }).sort((a, b) => p[b]! - p[a]!);
  let smallest = 1;
  order.forEach((i, at) => {
    smallest = Math.min(smallest, (p[i]! * p.length) / (p.length - at));
    adjusted[i] = smallest;
  });
  return adjusted;
}
