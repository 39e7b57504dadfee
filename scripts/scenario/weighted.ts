import type { Random } from './random';

/** Draws indices with probability in proportion to their weights. */
export type WeightedDraw = (random: Random) => number;

/**
 * Prepares draws by weight: a running sum once, a binary search for each draw.
 * @param weights 0 or more each; an index of weight 0 is never drawn
 * @throws RangeError where no weight is positive
 */
export function weightedDraw(weights: ArrayLike<number>): WeightedDraw {
  const upTo = new Float64Array(weights.length);
  let total = 0;
  for (let i = 0; i < weights.length; i++) {
    total += weights[i]!;
    upTo[i] = total;
  }
  if (!(total > 0)) throw new RangeError('Nothing can be drawn: no weight is positive.');
  return (random) => {
    const wanted = random.uniform() * total;
    let low = 0;
    let high = upTo.length - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (upTo[middle]! > wanted) high = middle;
      else low = middle + 1;
    }
    return low;
  };
}
