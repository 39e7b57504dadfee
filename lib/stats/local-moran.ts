import { centre } from './centre';
import { checkLengths, checkPermutations, StatsError } from './errors';
import { countNeighbourDraws } from './neighbour-draws';
import type { Random } from './random';
import { degree, neighbourSums, type Weights } from './weights';

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
}

/**
 * Local Moran index of each place with conditional permutation p: the place keeps its value, its neighbours' values
 * are drawn without replacement from all other places. p never comes from a normal approximation.
 *
 * @param values one for each place, as the `z` of `ebStandardise`
 * @param weights of the same places
 * @param random stream of random numbers; the result is a function of its state
 * @policy Isolated places must be left out first (`isolated`). A place at the mean has index 0 and p = 1. Ties count
 *   as at least as extreme. The places share their draws: see `countNeighbourDraws`.
 * @throws StatsError `isolated`, `constant`, `too few` with fewer than 3 places, `bad argument`
 * @source Anselin 1995, Geographical Analysis 27:93–115, doi 10.1111/j.1538-4632.1995.tb00338.x; moments: Sokal, Oden &
 *   Thomson 1998, Geographical Analysis 30:331–354
 */
export function localMoran(
  values: ArrayLike<number>,
  weights: Weights,
  { permutations, random }: { permutations: number; random: Random },
): LocalMoran {
  check(values, weights, permutations);
  const { z, m2 } = centre(values);
  const n = weights.places;
  const observed = neighbourSums(weights, z);
  const degrees = Int32Array.from({ length: n }, (_, i) => degree(weights, i));
  const slack = 1e-9 * Math.sqrt(m2);
  const { atLeast, atMost } = countNeighbourDraws(
    { values: z, degrees, observed, slack },
    { permutations, random },
  );
  const result = emptyResult(z);
  for (let i = 0; i < n; i += 1) {
    const own = Math.abs(z[i]!) <= slack ? 0 : z[i]!;
    const k = degrees[i]!;
    const w = weights.rowWeight[i]!;
    result.lag[i] = observed[i]! / k;
    result.index[i] = (own / m2) * w * observed[i]!;
    result.expected[i] = (-k * w * own ** 2) / ((n - 1) * m2);
    result.variance[i] =
      ((own / m2) ** 2 * n * (k * w ** 2 - (k * w) ** 2 / (n - 1)) * (m2 - own ** 2 / (n - 1))) / (n - 2);
    const larger = own > 0 ? atLeast[i]! : own < 0 ? atMost[i]! : permutations;
    const smaller = own > 0 ? atMost[i]! : own < 0 ? atLeast[i]! : permutations;
    result.pGreater[i] = (larger + 1) / (permutations + 1);
    result.pLess[i] = (smaller + 1) / (permutations + 1);
    result.p[i] = Math.min(1, 2 * Math.min(result.pGreater[i]!, result.pLess[i]!));
  }
  return result;
}

function check(values: ArrayLike<number>, weights: Weights, permutations: number): void {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  checkPermutations(permutations);
  if (weights.isolated > 0) {
    throw new StatsError(
      'isolated',
      `${weights.isolated} of ${weights.places} places have no neighbour: leave them out first, and count them.`,
    );
  }
  if (weights.places < 3) {
    throw new StatsError('too few', `Got ${weights.places} places; the local index needs 3.`);
  }
}

function emptyResult(z: Float64Array): LocalMoran {
  const empty = () => new Float64Array(z.length);
  return {
    index: empty(),
    expected: empty(),
    variance: empty(),
    pGreater: empty(),
    pLess: empty(),
    p: empty(),
    lag: empty(),
    z,
  };
}
