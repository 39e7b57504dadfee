import type { Random } from './random';

/**
 * A statistic of the same values in one random order after another: each call a new order.
 *
 * @param pair writes the statistic of two orders into `out`; they are looked at together because that is faster
 * @param random stream of random numbers; orders are drawn two at a time, so an odd number of calls draws one too many
 */
export function inRandomOrders(
  values: Float64Array,
  random: Random,
  pair: (a: Float64Array, b: Float64Array, out: Float64Array) => void,
): () => number {
  const [a, b, out] = [values.slice(), values.slice(), new Float64Array(2)];
  let isKept = false;
  return () => {
    isKept = !isKept;
    if (!isKept) return out[1]!;
    a.set(b);
    random.shuffle(a);
    b.set(a);
    random.shuffle(b);
    pair(a, b, out);
    return out[0]!;
  };
}
