/** The best monotone sequence under given values. */
export interface MonotoneFit {
  fitted: Float64Array;
  /** Number of different levels. */
  levels: number;
  /** Σ weight (value − fitted)². */
  residual: number;
}

/**
 * Falling (or rising) sequence nearest to the values by weighted least squares: neighbours that run the wrong way are
 * pooled until none does.
 *
 * @param direction −1 falling, 1 rising
 * @source Ayer, Brunk, Ewing, Reid & Silverman 1955, Ann. Math. Stat. 26:641–647 (pool adjacent violators; from memory)
 * @cost linear
 */
export function monotone(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  direction: -1 | 1,
): MonotoneFit {
  const blocks: { mean: number; weight: number; size: number }[] = [];
  for (let i = 0; i < values.length; i += 1) {
    let block = { mean: values[i]!, weight: weights[i]!, size: 1 };
    for (let last = blocks.at(-1); last && direction * (block.mean - last.mean) <= 0; last = blocks.at(-1)) {
      blocks.pop();
      const weight = last.weight + block.weight;
      block = {
        mean: (last.mean * last.weight + block.mean * block.weight) / weight,
        weight,
        size: last.size + block.size,
      };
    }
    blocks.push(block);
  }
  const fitted = Float64Array.from(
    blocks.flatMap(({ mean, size }) => Array.from({ length: size }, () => mean)),
  );
  const residual = fitted.reduce((sum, mean, i) => sum + weights[i]! * (values[i]! - mean) ** 2, 0);
  return { fitted, levels: blocks.length, residual };
}
