import { centre } from './centre';
import { checkLengths } from './errors';
import { linkedProduct, linkedProducts, mutualLinks } from './mutual-links';
import type { Random } from './random';
import { inRandomOrders } from './random-orders';
import { type TailCounts, tailCounts } from './tail-counts';
import { placesCompared, type Weights } from './weights';

export interface MoranPermutation extends TailCounts {
  index: number;
  /** −1 / (n − 1). */
  expected: number;
}

/**
 * Moran's index and how often the same values in random order give one as large.
 *
 * @param values one for each place, as the `z` of `ebStandardise`
 * @param weights of the same places
 * @param random stream of random numbers; the result is a function of its state
 * @policy Places without a neighbour are left out of n; their values take part in the reordering. Orders that tie
 *   with the observed one (to 1e-9 of the spread) count as at least as large, and as at least as small.
 * @throws StatsError `constant`, `too few` where no place has a neighbour, `bad argument`
 * @source Cliff & Ord 1981, p. 63–65 (from memory)
 * @cost O(permutations · (places + links))
 */
export function moranPermutation(
  values: ArrayLike<number>,
  weights: Weights,
  { permutations, random }: { permutations: number; random: Random },
): MoranPermutation {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  const n = placesCompared(weights);
  const { z, m2 } = centre(values);
  const links = mutualLinks(weights);
  const scale = n / (links.total * m2 * weights.places);
  const index = scale * linkedProduct(z, links);
  const slack = 1e-9 * scale * links.total * m2;
  const next = inRandomOrders(z, random, (a, b, out) => linkedProducts(a, b, links, out));
  const tails = tailCounts({ observed: index, slack, permutations }, () => scale * next());
  return { index, expected: -1 / (n - 1), ...tails };
}
