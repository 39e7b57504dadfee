import type { Family } from './empirical-bayes';
import { StatsError } from './errors';
import { shareMoments } from './share-moments';

export interface StandardisedShares {
  /** For each place (share − mean) over its expected standard deviation. */
  z: Float64Array;
  mean: number;
  variance: number;
  /** Variance between places beyond counting; may be negative with `poisson`. */
  between: number;
  /** Places whose variance came out as zero or less and was replaced by counting alone (`poisson` only). */
  replaced: number;
}

/**
 * Shares made comparable between places where few and where many were tested: the input of the EB-standardised Moran
 * index. Under one common share all places have about the same variance, so uneven testing looks like nothing.
 *
 * `poisson` is the published form: v_i = a + b / n_i, a = s² − b / n̄, and b / n_i where v_i ≤ 0. At common shares a is
 * often negative, and then v_i comes close to zero for some n_i and that place drowns all others. `binomial` is our
 * adaptation for shares that are not rare: v_i = a + b (1 − b) / n_i with a = max(0, s² − b (1 − b) / n̄), never zero.
 *
 * @param cases for each place, 0 … tested
 * @param tested for each place, > 0
 * @throws StatsError `constant` where every place has the same share (none or all resistant among them), else as
 *   `shareMoments`
 * @source Assunção & Reis 1999, Statistics in Medicine 18:2147–2162
 */
export function ebStandardise(
  cases: ArrayLike<number>,
  tested: ArrayLike<number>,
  family: Family,
): StandardisedShares {
  const { mean, variance, averageTested } = shareMoments(cases, tested);
  if (variance <= 1e-24) {
    throw new StatsError('constant', `Every place has the share ${mean}: there is no pattern to look for.`);
  }
  const counting = family === 'poisson' ? mean : mean * (1 - mean);
  const excess = variance - counting / averageTested;
  const between = family === 'poisson' ? excess : Math.max(0, excess);
  let replaced = 0;
  const z = Float64Array.from(cases, (count, i) => {
    let expected = between + counting / tested[i]!;
    if (expected <= 0) {
      expected = counting / tested[i]!;
      replaced += 1;
    }
    return (count / tested[i]! - mean) / Math.sqrt(expected);
  });
  return { z, mean, variance, between, replaced };
}
