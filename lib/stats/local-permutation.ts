import { checkLengths, checkPermutations, StatsError } from './errors';
import { countNeighbourDraws } from './neighbour-draws';
import type { Random } from './random';
import { type Resolution, resolution } from './resolution';
import { degree, neighbourSums, refuseIsolated, type Weights } from './weights';

export interface LocalPermutationRun {
  permutations: number;
  /** Stream of random numbers; the result is a function of its state. */
  random: Random;
  /** Level of the adjusted p for which `resolution` is judged. Default 0.05. */
  level?: number;
}

export interface LocalPermutation {
  /** For each place the number of values in its sum, and the sum. */
  sizes: Int32Array;
  sums: Float64Array;
  /** (M + 1) / (R + 1) for a sum at least as large, at least as small. */
  pGreater: Float64Array;
  pLess: Float64Array;
  /** Whether so many permutations can flag a place at all once p is adjusted for the number of places. */
  resolution: Resolution;
}

export interface PermutedValues {
  values: Float64Array;
  /** Sums that differ by no more count as equal. */
  slack: number;
  /** `others`: the sum of a place's neighbours, drawn from the other places. `all`: its own value too, from all. */
  from: 'others' | 'all';
}

/**
 * The sums of values around each place against those of as many values drawn at random without replacement.
 * @cost as `countNeighbourDraws`
 */
export function permuteLocally(
  { values, slack, from }: PermutedValues,
  weights: Weights,
  { permutations, random, level = 0.05 }: LocalPermutationRun,
): LocalPermutation {
  const own = from === 'all' ? 1 : 0;
  const sizes = Int32Array.from({ length: weights.places }, (_, i) => degree(weights, i) + own);
  const sums = neighbourSums(weights, values);
  if (own)
    values.forEach((value, i) => {
      sums[i]! += value;
    });
  const { atLeast, atMost } = countNeighbourDraws(
    { values, degrees: sizes, observed: sums, slack, from },
    { permutations, random },
  );
  const chance = (count: number) => (count + 1) / (permutations + 1);
  return {
    sizes,
    sums,
    pGreater: Float64Array.from(atLeast, chance),
    pLess: Float64Array.from(atMost, chance),
    resolution: resolution(permutations, weights.places, level),
  };
}

/** Throws `bad argument`, `isolated` or `too few` where a test of each place against its neighbours has no answer. */
export function checkLocal(values: ArrayLike<number>, weights: Weights, permutations: number): void {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  checkPermutations(permutations);
  refuseIsolated(weights);
  if (weights.places < 3) {
    throw new StatsError('too few', `Got ${weights.places} places; a local test needs 3.`);
  }
}

/** For each place twice the smaller of two tails, at most 1. */
export function twoSided(pGreater: Float64Array, pLess: Float64Array): Float64Array {
  return pGreater.map((greater, i) => Math.min(1, 2 * Math.min(greater, pLess[i]!)));
}
