import { centre } from './centre';
import { checkLengths, checkPermutations, StatsError } from './errors';
import type { Random } from './random';
import type { Weights } from './weights';

export interface MoranPermutation {
  index: number;
  /** −1 / (n − 1). */
  expected: number;
  /** (M + 1) / (R + 1), M of R orders with an index at least as large: in (0, 1]. */
  pGreater: number;
  /** The same for an index at least as small. */
  pLess: number;
  permutations: number;
  /** Mean and standard deviation of the index over the orders. */
  mean: number;
  deviation: number;
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
 * @source Cliff & Ord 1981, p. 63–65 (from memory); (M + 1) / (R + 1): Phipson & Smyth 2010, Statistical Applications
 *   in Genetics and Molecular Biology 9(1) 39
 * @cost O(permutations · (places + links))
 */
export function moranPermutation(
  values: ArrayLike<number>,
  weights: Weights,
  { permutations, random }: { permutations: number; random: Random },
): MoranPermutation {
  checkLengths(values, weights.rowWeight, 'Values and weights');
  checkPermutations(permutations);
  const n = weights.places - weights.isolated;
  if (n < 2) throw new StatsError('too few', 'No place has a neighbour, so nothing can be compared.');
  const { z, m2 } = centre(values);
  const links = mutualLinks(weights);
  const scale = n / (links.total * m2 * weights.places);
  const index = scale * linkedProduct(z, links);
  const slack = 1e-9 * scale * links.total * m2;
  const order = z.slice();
  let atLeast = 0;
  let atMost = 0;
  let sum = 0;
  let squares = 0;
  for (let r = 0; r < permutations; r += 1) {
    random.shuffle(order);
    const shuffled = scale * linkedProduct(order, links);
    if (shuffled >= index - slack) atLeast += 1;
    if (shuffled <= index + slack) atMost += 1;
    sum += shuffled;
    squares += shuffled * shuffled;
  }
  const mean = sum / permutations;
  return {
    index,
    expected: -1 / (n - 1),
    pGreater: (atLeast + 1) / (permutations + 1),
    pLess: (atMost + 1) / (permutations + 1),
    permutations,
    mean,
    deviation: Math.sqrt(Math.max(0, squares / permutations - mean * mean)),
  };
}

interface Links {
  from: Int32Array;
  to: Int32Array;
  weight: Float64Array;
  /** Σ w_ij. */
  total: number;
}

/** Each pair of neighbours once, with w_ij + w_ji: half the products to sum in every order. */
function mutualLinks({ places, offsets, neighbours, rowWeight }: Weights): Links {
  const weightOf = new Map<number, number>();
  let total = 0;
  for (let i = 0; i < places; i += 1) {
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) {
      const j = neighbours[at]!;
      const pair = Math.min(i, j) * places + Math.max(i, j);
      weightOf.set(pair, (weightOf.get(pair) ?? 0) + rowWeight[i]!);
      total += rowWeight[i]!;
    }
  }
  const pairs = [...weightOf.keys()];
  return {
    from: Int32Array.from(pairs, (pair) => Math.floor(pair / places)),
    to: Int32Array.from(pairs, (pair) => pair % places),
    weight: Float64Array.from(weightOf.values()),
    total,
  };
}

function linkedProduct(z: Float64Array, { from, to, weight }: Links): number {
  let sum = 0;
  for (let k = 0; k < weight.length; k += 1) sum += weight[k]! * z[from[k]!]! * z[to[k]!]!;
  return sum;
}
