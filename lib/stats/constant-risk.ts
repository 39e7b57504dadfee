import { checkLengths, StatsError } from './errors';
import { linkedProduct, mutualLinks } from './mutual-links';
import type { Random } from './random';
import { allocation } from './scan/allocate';
import { shareMoments } from './share-moments';
import { type TailCounts, tailCounts } from './tail-counts';
import { placesCompared, type Weights } from './weights';

export interface ConstantRisk extends TailCounts {
  /** (n / S0) Σ w_ij z_i z_j / Σ z_i². */
  index: number;
}

/**
 * Are neighbours alike beyond what one share for all would bring? Each place's count is set against its expectation in
 * its own standard deviations, z = (cases − tested b) / √(tested b (1 − b)); replicates deal the cases out again among
 * all tested, each choice equally likely (multivariate hypergeometric). It checks the EB-standardised Moran index, whose
 * permutation lets places have different shares so long as they lie at random: where shares differ from place to place
 * without any pattern, this null hypothesis is false and that one is true. As the index is a ratio, it is little moved
 * by such differences.
 *
 * @param cases for each place a whole number of 0 … tested
 * @param tested for each place a whole number > 0; 2^21 in all at most
 * @param weights of the same places
 * @policy Places without a neighbour are left out of n, but take part in the reallocation and in Σ z². Where each count is
 *   what was expected the index is 0.
 * @throws StatsError `constant` where none or all are cases, `too few` where no place has a neighbour, else as
 *   `shareMoments`; `bad argument` for too many tested
 * @source the hypothesis and its replicates: Besag & Newell 1991, JRSS A 154:143–155 (from memory); the ratio is ours
 * @cost O(replicates · (cases + links))
 */
export function constantRisk(
  cases: ArrayLike<number>,
  tested: ArrayLike<number>,
  weights: Weights,
  { replicates, random }: { replicates: number; random: Random },
): ConstantRisk {
  checkLengths(cases, weights.rowWeight, 'Cases and weights');
  const { mean } = shareMoments(cases, tested);
  const n = placesCompared(weights);
  if (mean === 0 || mean === 1)
    throw new StatsError('constant', `Every place has the share ${mean}: there is no pattern to look for.`);
  const links = mutualLinks(weights);
  const sizes = Float64Array.from(tested);
  const counts = Int32Array.from(cases);
  const allocate = allocation({
    allocation: 'among tested',
    tested: sizes,
    resistant: counts,
    seasons: 1,
    totalResistant: counts.reduce((sum, count) => sum + count, 0),
  });
  const z = new Float64Array(weights.places);
  const inverse = sizes.map((size) => 1 / Math.sqrt(size * mean * (1 - mean)));
  const indexOf = () => {
    let squares = 0;
    for (let i = 0; i < z.length; i += 1) {
      const deviation = (counts[i]! - sizes[i]! * mean) * inverse[i]!;
      z[i] = deviation;
      squares += deviation * deviation;
    }
    const isRounding = squares < 1e-18 * z.length;
    return isRounding ? 0 : ((n / links.total) * linkedProduct(z, links)) / squares;
  };
  const index = indexOf();
  const tails = tailCounts({ observed: index, slack: 1e-9, permutations: replicates }, () => {
    allocate(random, counts);
    return indexOf();
  });
  return { index, ...tails };
}
