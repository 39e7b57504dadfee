import { centre } from './centre';
import {
  checkLocal,
  type LocalPermutation,
  type LocalPermutationRun,
  permuteLocally,
  twoSided,
} from './local-permutation';
import type { Weights } from './weights';

export interface LocalMoran {
  /** I_i = z_i / m2 · Σ_j w_ij z_j with m2 = Σ z² / n; they sum to S0 times the global index. */
  index: Float64Array;
  /** Mean and variance of I_i when the other places' values are spread over them at random (exact). */
  expected: Float64Array;
  variance: Float64Array;
  /** (M + 1) / (R + 1) for an index at least as large, at least as small. */
  pGreater: Float64Array;
  pLess: Float64Array;
  /** Two-sided: twice the smaller of the two, at most 1; never below 2 / (R + 1). */
  p: Float64Array;
  /** For each place the mean of its neighbours' z. */
  lag: Float64Array;
  /** Values less their mean. */
  z: Float64Array;
  /** Whether so many permutations can flag a place at all once p is adjusted for the number of places. */
  resolution: LocalPermutation['resolution'];
}

/**
 * Local Moran index of each place with conditional permutation p: the place keeps its value, its neighbours' values
 * are drawn without replacement from all other places. p never comes from a normal approximation.
 *
 * @param values one for each place, as the `z` of `ebStandardise`
 * @param weights of the same places
 * @policy Isolated places must be left out first (`isolated`). A place at the mean has index 0 and p = 1. Ties count
 *   as at least as extreme. The places share their draws: see `countNeighbourDraws`.
 * @throws StatsError `isolated`, `constant`, `too few` with fewer than 3 places, `bad argument`
 * @source Anselin 1995, Geographical Analysis 27:93–115, doi 10.1111/j.1538-4632.1995.tb00338.x; moments: Sokal, Oden &
 *   Thomson 1998, Geographical Analysis 30:331–354
 */
export function localMoran(
  values: ArrayLike<number>,
  weights: Weights,
  run: LocalPermutationRun,
): LocalMoran {
  checkLocal(values, weights, run.permutations);
  const { z, m2 } = centre(values);
  const n = weights.places;
  const slack = 1e-9 * Math.sqrt(m2);
  const around = permuteLocally({ values: z, slack, from: 'others' }, weights, run);
  const empty = () => new Float64Array(n);
  const [index, expected, variance, lag] = [empty(), empty(), empty(), empty()];
  const [pGreater, pLess] = [empty(), empty()];
  for (let i = 0; i < n; i += 1) {
    const own = Math.abs(z[i]!) <= slack ? 0 : z[i]!;
    const k = around.sizes[i]!;
    const w = weights.rowWeight[i]!;
    lag[i] = around.sums[i]! / k;
    index[i] = (own / m2) * w * around.sums[i]!;
    expected[i] = (-k * w * own ** 2) / ((n - 1) * m2);
    variance[i] =
      ((own / m2) ** 2 * n * (k * w ** 2 - (k * w) ** 2 / (n - 1)) * (m2 - own ** 2 / (n - 1))) / (n - 2);
    // The index grows with the neighbours' sum where the place is above the mean, and falls where it is below.
    pGreater[i] = own > 0 ? around.pGreater[i]! : own < 0 ? around.pLess[i]! : 1;
    pLess[i] = own > 0 ? around.pLess[i]! : own < 0 ? around.pGreater[i]! : 1;
  }
  const p = twoSided(pGreater, pLess);
  return { index, expected, variance, pGreater, pLess, p, lag, z, resolution: around.resolution };
}
