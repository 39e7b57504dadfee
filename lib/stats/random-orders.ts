import type { Random } from './random';

/**
 * The same values in one random order after another, two orders a call, as statistics of two are faster looked at
 * together. The arrays are written anew by each call.
 *
 * @param random stream of random numbers
 */
export function orderPairs(
  values: Float64Array,
  random: Random,
): () => readonly [Float64Array, Float64Array] {
  const pair = [values.slice(), values.slice()] as const;
  const [a, b] = pair;
  return () => {
    a.set(b);
    random.shuffle(a);
    b.set(a);
    random.shuffle(b);
    return pair;
  };
}

/**
 * A statistic of the same values in one random order after another: each call a new order.
 *
 * @param write writes the statistic of two orders into `out`
 * @param random stream of random numbers; an odd number of calls draws one order too many
 */
export function inRandomOrders(
  values: Float64Array,
  random: Random,
  write: (a: Float64Array, b: Float64Array, out: Float64Array) => void,
): () => number {
  const nextPair = orderPairs(values, random);
  const out = new Float64Array(2);
  let isKept = false;
  return () => {
    isKept = !isKept;
    if (!isKept) return out[1]!;
    const [a, b] = nextPair();
    write(a, b, out);
    return out[0]!;
  };
}
