import { checkLengths } from '../errors';
import type { Random } from '../random';

export interface StrataShuffle {
  /** The items, those of one stratum beside each other. */
  order: Int32Array;
  /** Brings labels that lie in this order into random order, in place, inside each stratum only. */
  shuffle: (labels: Float64Array | Int32Array, random: Random) => void;
  /**
   * How many items lie in a stratum with different labels at different sites: only there does a permutation change
   * anything. Both in this order.
   */
  movable: (labels: ArrayLike<number>, sites: ArrayLike<number>) => number;
}

/**
 * Permutations inside strata, each equally likely.
 *
 * @param strata a code for each item; one stratum of all where left out
 * @throws StatsError `bad argument` where lengths differ
 */
export function strataShuffle(items: number, strata?: ArrayLike<number>): StrataShuffle {
  if (strata) checkLengths({ length: items }, strata, 'Items and strata');
  const order = Int32Array.from({ length: items }, (_, i) => i);
  if (strata) order.sort((a, b) => strata[a]! - strata[b]! || a - b);
  const starts = [0];
  for (let at = 1; at < items; at += 1) {
    if (strata && strata[order[at]!] !== strata[order[at - 1]!]) starts.push(at);
  }
  const ranges = starts.map((start, s): [number, number] => [start, starts[s + 1] ?? items]);
  return {
    order,
    shuffle: (labels, random) => {
      for (const [from, to] of ranges) random.shuffle(labels.subarray(from, to));
    },
    movable: (labels, sites) =>
      ranges.reduce((sum, [from, to]) => {
        const differ = (codes: ArrayLike<number>) => {
          for (let at = from + 1; at < to; at += 1) if (codes[at] !== codes[from]) return true;
          return false;
        };
        return differ(labels) && differ(sites) ? sum + to - from : sum;
      }, 0),
  };
}

/** The same code for items at the same point, in an order given. */
export function sitesOf(x: ArrayLike<number>, y: ArrayLike<number>, order: Int32Array): Int32Array {
  const codes = new Map<string, number>();
  return order.map((item) => {
    const key = `${x[item]} ${y[item]}`;
    if (!codes.has(key)) codes.set(key, codes.size);
    return codes.get(key)!;
  });
}
