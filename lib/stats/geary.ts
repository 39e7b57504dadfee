import { centre } from './centre';
import { checkLengths, StatsError } from './errors';
import { type MomentTest, momentTest } from './moment-test';
import { linkedSquares, type MutualLinks, mutualLinks } from './mutual-links';
import type { Random } from './random';
import { inRandomOrders } from './random-orders';
import { type TailCounts, tailCounts } from './tail-counts';
import { weightMoments } from './weight-moments';
import { placesCompared, type Weights } from './weights';

export interface Geary {
  /** 0 … 2 or so: below `expected` where neighbours are alike. */
  ratio: number;
  /** 1 where every place has a neighbour. */
  expected: number;
  /** Places with a neighbour. */
  places: number;
  isolated: number;
  /** `z` is (expected − ratio) over its deviation, so that z > 0 and a small `pGreater` mean likeness, as with Moran's index. */
  normality: MomentTest | null;
  randomisation: MomentTest | null;
}

/**
 * Geary's ratio: squared differences between neighbours over the variance of all. It answers to the same question as
 * Moran's index and weighs differences of neighbours, not their distance from the mean.
 *
 * @param values one for each place, as the `z` of `ebStandardise`
 * @param weights of the same places
 * @policy Places without a neighbour are left out of the ratio's n, but their values stay in the variance. The moments
 *   are those of reordering the values of all places, so they hold for such maps too.
 * @throws StatsError `constant`, `too few` with fewer than 4 places that have a neighbour, `bad argument`
 * @source Geary 1954, The Incorporated Statistician 5:115–145; moments: Cliff & Ord 1981, Spatial Processes, p. 17 and
 *   21 (from memory; checked against the values of a reference library)
 * @cost O(places + links · log degree)
 */
export function geary(values: ArrayLike<number>, weights: Weights): Geary {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  const withNeighbour = weights.places - weights.isolated;
  if (withNeighbour < 4)
    throw new StatsError(
      'too few',
      `${withNeighbour} places have a neighbour; the moments of Geary's ratio need 4.`,
    );
  const { z, m2, m4 } = centre(values);
  const { s0, s1, s2 } = weightMoments(weights);
  const ratio = scaleOf(weights, m2, s0) * squaresOf(z, mutualLinks(weights));
  const n = weights.places;
  const kurtosis = m4 / m2 ** 2;
  const s02 = s0 * s0;
  const normal = ((2 * s1 + s2) * (n - 1) - 4 * s02) / (2 * (n + 1) * s02);
  const random =
    ((n - 1) * s1 * (n * n - 3 * n + 3 - (n - 1) * kurtosis) -
      0.25 * (n - 1) * s2 * (n * n + 3 * n - 6 - (n * n - n + 2) * kurtosis) +
      s02 * (n * n - 3 - (n - 1) ** 2 * kurtosis)) /
    (n * (n - 2) * (n - 3) * s02);
  const expected = (withNeighbour - 1) / (n - 1);
  return {
    ratio,
    expected,
    places: withNeighbour,
    isolated: weights.isolated,
    normality: momentTest(expected - ratio, normal * expected ** 2),
    randomisation: momentTest(expected - ratio, random * expected ** 2),
  };
}

/**
 * Geary's ratio against the same values in random order. A small `pLess` means that neighbours are alike.
 *
 * @param random stream of random numbers; the result is a function of its state
 * @policy As `moranPermutation`.
 * @throws StatsError `constant`, `too few` where no place has a neighbour, `bad argument`
 * @cost O(permutations · (places + links))
 */
export function gearyPermutation(
  values: ArrayLike<number>,
  weights: Weights,
  { permutations, random }: { permutations: number; random: Random },
): TailCounts & { ratio: number } {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  placesCompared(weights);
  const { z, m2 } = centre(values);
  const links = mutualLinks(weights);
  const scale = scaleOf(weights, m2, links.total);
  const ratio = scale * squaresOf(z, links);
  const next = inRandomOrders(z, random, (a, b, out) => linkedSquares(a, b, links, out));
  const tails = tailCounts({ observed: ratio, slack: 1e-9, permutations }, () => scale * next());
  return { ratio, ...tails };
}

function squaresOf(z: Float64Array, links: MutualLinks): number {
  const out = new Float64Array(2);
  linkedSquares(z, z, links, out);
  return out[0]!;
}

/** (n − 1) / (2 S0 Σ z²). */
function scaleOf({ places, isolated }: Weights, m2: number, s0: number): number {
  return (places - isolated - 1) / (2 * s0 * m2 * places);
}
