import { StatsError } from './errors';
import { hypergeometricTest } from './hypergeometric';
import { checkLocal, type LocalPermutationRun, permuteLocally } from './local-permutation';
import type { Weights } from './weights';

export interface LocalJoinCounts {
  /** For each place with the trait the number of its neighbours with it; 0 for a place without. */
  joins: Int32Array;
  /** Exact chance of at least so many; 1 for a place without the trait. */
  p: Float64Array;
  /** The same by permutation, (M + 1) / (R + 1); never below 1 / (R + 1). */
  pPermutation: Float64Array;
}

/**
 * Local join counts: is a place where something was found amid more such places than chance would put there? The place
 * keeps its value, its neighbours' are drawn without replacement from all other places. Of these draws the number with
 * the trait is hypergeometric, so the permutation has an exact answer, which has no floor: use `p`.
 *
 * For places where two things were found together (co-location) give 1 where both were.
 *
 * @param found for each place 1 or 0, over tested places only: not tested is not 0
 * @param weights of the same places; each neighbour counts 1, whatever the style
 * @policy Isolated places must be left out first (`isolated`). A place without the trait is not judged: p = 1. Takes no
 *   account of how much was tested; where that is uneven use `localHypergeometric`.
 * @throws StatsError `isolated`, `constant` where none or all have the trait, `too few` with fewer than 3 places, `bad
 *   argument` for other values than 0 and 1
 * @source Anselin & Li 2019, Operational local join count statistics for cluster detection, Journal of Geographical
 *   Systems 21:189–210, doi 10.1007/s10109-019-00299-x (from memory)
 * @cost as `countNeighbourDraws`
 */
export function localJoinCounts(
  found: ArrayLike<number>,
  weights: Weights,
  run: LocalPermutationRun,
): LocalJoinCounts {
  checkLocal(found, weights, run.permutations);
  const values = Float64Array.from(found);
  const marked = countOnes(values);
  const { sizes, sums, pGreater } = permuteLocally({ values, slack: 0.5, from: 'others' }, weights, run);
  // A place with the trait leaves one fewer to its neighbours.
  const others = { total: weights.places - 1, marked: marked - 1 };
  return {
    joins: Int32Array.from(values, (own, i) => own * sums[i]!),
    p: values.map((own, i) =>
      own === 1 ? hypergeometricTest(sums[i]!, { ...others, drawn: sizes[i]! }).greater : 1,
    ),
    pPermutation: values.map((own, i) => (own === 1 ? pGreater[i]! : 1)),
  };
}

function countOnes(values: Float64Array): number {
  let ones = 0;
  values.forEach((value, i) => {
    if (value !== 0 && value !== 1) {
      throw new StatsError('bad argument', `Value ${i} is ${value}; expected 1 where found and 0 where not.`);
    }
    ones += value;
  });
  if (ones === 0 || ones === values.length) {
    throw new StatsError('constant', `${ones} of ${values.length} places have it: there is no pattern.`);
  }
  return ones;
}
