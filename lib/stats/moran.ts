import { centre } from './centre';
import { checkLengths, StatsError } from './errors';
import { type MomentTest, momentTest } from './moment-test';
import { linkedProduct, mutualLinks } from './mutual-links';
import { weightMoments } from './weight-moments';
import type { Weights } from './weights';

export interface Moran {
  index: number;
  /** −1 / (n − 1). */
  expected: number;
  /** Places with a neighbour: the n of all formulas. */
  places: number;
  isolated: number;
  /** Fourth moment over the squared second moment of the values. */
  kurtosis: number;
  /** Values drawn from a normal distribution; null where the variance is not positive (all are neighbours of all). */
  normality: MomentTest | null;
  /** The given values in any order; null as above. */
  randomisation: MomentTest | null;
}

/**
 * Moran's index of likeness among neighbours, with its analytic moments. For a verdict use `moranPermutation`.
 *
 * @param values one for each place
 * @param weights of the same places
 * @policy Places without a neighbour are left out of n, but their values stay in the mean and the variance.
 * @throws StatsError `constant`, `too few` with fewer than 4 places that have a neighbour, `bad argument`
 * @source Cliff & Ord 1981, Spatial Processes, p. 17–21 and 46 (from memory)
 * @cost O(places + links · log degree)
 */
export function moran(values: ArrayLike<number>, weights: Weights): Moran {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  const n = weights.places - weights.isolated;
  if (n < 4) {
    throw new StatsError('too few', `${n} places have a neighbour; the moments of Moran's index need 4.`);
  }
  const { z, m2, m4 } = centre(values);
  const { s0, s1, s2 } = weightMoments(weights);
  const index = (n / s0) * (linkedProduct(z, mutualLinks(weights)) / (m2 * weights.places));
  const kurtosis = m4 / m2 ** 2;
  const expected = -1 / (n - 1);
  const s02 = s0 * s0;
  const normal = (n * n * s1 - n * s2 + 3 * s02) / (s02 * (n * n - 1)) - expected ** 2;
  const random =
    (n * ((n * n - 3 * n + 3) * s1 - n * s2 + 3 * s02) -
      kurtosis * ((n * n - n) * s1 - 2 * n * s2 + 6 * s02)) /
      ((n - 1) * (n - 2) * (n - 3) * s02) -
    expected ** 2;
  return {
    index,
    expected,
    places: n,
    isolated: weights.isolated,
    kurtosis,
    normality: momentTest(index - expected, normal),
    randomisation: momentTest(index - expected, random),
  };
}
