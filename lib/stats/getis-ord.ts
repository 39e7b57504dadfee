import { centre } from './centre';
import {
  checkLocal,
  type LocalPermutation,
  type LocalPermutationRun,
  permuteLocally,
  twoSided,
} from './local-permutation';
import type { Weights } from './weights';

export interface GetisOrd {
  /** Mean of the values around each place, in their unit: of its neighbours (G), of itself and them (G*). */
  mean: Float64Array;
  /** The sum around each place less its expectation, in standard deviations under random order (exact moments). */
  z: Float64Array;
  /** (M + 1) / (R + 1) for a sum at least as large, at least as small. */
  pGreater: Float64Array;
  pLess: Float64Array;
  /** Two-sided: twice the smaller of the two, at most 1; never below 2 / (R + 1). */
  p: Float64Array;
  resolution: LocalPermutation['resolution'];
}

export interface GetisOrdRun extends LocalPermutationRun {
  /** `G` leaves the place's own value out, `G*` counts it in. */
  statistic: 'G' | 'G*';
}

/**
 * Getis and Ord's G and G* of each place: are the values around it high, or low, together? For G the place keeps its
 * value and its neighbours' are drawn without replacement from all other places; for G* the whole window is drawn from
 * all places. (With its own value kept, G* has the p of G: a constant is added to each sum.) These are the draws whose
 * exact mean and variance stand in z; p comes from the draws, never from a normal approximation.
 *
 * @param values one for each place, as the `z` of `ebStandardise`; they may be negative
 * @param weights of the same places; z and p are the same for both styles, as weights are even inside a row
 * @policy Isolated places must be left out first (`isolated`). z is 0 and p is 1 where nothing can vary: all others are
 *   neighbours, or have the same value. Ties (to 1e-9 of the spread) count as at least as extreme. The places share
 *   their draws: see `countNeighbourDraws`.
 * @throws StatsError `isolated`, `constant`, `too few` with fewer than 3 places, `bad argument`
 * @source Getis & Ord 1992, Geographical Analysis 24:189–206; Ord & Getis 1995, Geographical Analysis 27:286–306, doi
 *   10.1111/j.1538-4632.1995.tb00912.x (from memory; z checked against the values of a reference library)
 * @cost as `countNeighbourDraws`
 */
export function getisOrd(values: ArrayLike<number>, weights: Weights, run: GetisOrdRun): GetisOrd {
  checkLocal(values, weights, run.permutations);
  const { z: deviations, m2 } = centre(values);
  const from = run.statistic === 'G' ? 'others' : 'all';
  const slack = 1e-9 * Math.sqrt(m2);
  const local = permuteLocally({ values: deviations, slack, from }, weights, run);
  const { sizes, sums, pGreater, pLess, resolution } = local;
  const mean = Array.from(values).reduce((a, b) => a + b, 0) / weights.places;
  const count = from === 'others' ? weights.places - 1 : weights.places;
  const squares = weights.places * m2;
  return {
    mean: sums.map((sum, i) => mean + sum / sizes[i]!),
    z: sums.map((sum, i) => {
      const left = from === 'others' ? deviations[i]! : 0;
      return standardise(sum, sizes[i]!, { count, total: -left, squares: squares - left ** 2 });
    }),
    pGreater,
    pLess,
    p: twoSided(pGreater, pLess),
    resolution,
  };
}

/** The values that are drawn from: how many, their sum, and the sum of their squares. */
interface Population {
  count: number;
  total: number;
  squares: number;
}

/** A sum of so many values drawn without replacement, in standard deviations from its expectation. */
function standardise(sum: number, size: number, { count, total, squares }: Population): number {
  const variance = squares / count - (total / count) ** 2;
  const isRounding = variance <= 1e-18 * squares;
  if (size === count || isRounding) return 0;
  return (sum - (size * total) / count) / Math.sqrt((variance * size * (count - size)) / (count - 1));
}
