import { StatsError } from './errors';

/** Values less their mean. */
export interface Centred {
  z: Float64Array;
  /** Σ z² / n. */
  m2: number;
  /** Σ z⁴ / n. */
  m4: number;
}

/**
 * @throws StatsError `constant` where all values are equal, `bad argument` for a value that is no finite number
 */
export function centre(values: ArrayLike<number>): Centred {
  const n = values.length;
  let sum = 0;
  let largest = 0;
  for (let i = 0; i < n; i += 1) {
    const value = values[i]!;
    if (!Number.isFinite(value)) {
      throw new StatsError('bad argument', `Value ${i} is ${value}; leave places without a value out.`);
    }
    sum += value;
    largest = Math.max(largest, Math.abs(value));
  }
  const mean = sum / n;
  const z = Float64Array.from(values, (value) => value - mean);
  let second = 0;
  let fourth = 0;
  for (const deviation of z) {
    second += deviation ** 2;
    fourth += deviation ** 4;
  }
  if (!(second > n * (largest * 1e-12) ** 2)) {
    throw new StatsError('constant', 'All values are equal: there is no pattern to look for.');
  }
  return { z, m2: second / n, m4: fourth / n };
}
