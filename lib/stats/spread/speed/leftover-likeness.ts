import { checkLengths } from '../../errors';
import { normalCdf } from '../../normal';
import type { Weights } from '../../weights';

/**
 * Are neighbours alike beyond what a fitted front explains? One-sided p, in (0, 1]: neighbours both earlier or both later
 * than it expects.
 *
 * @param scores of each place: how its log-likelihood changes with its expected time. Under the true front they have mean
 *   0 and are independent; their spread may differ.
 * @policy The sum of products over links is divided by the root of the sum of squared products, so that places of much
 *   and of little testing need no common variance. 1 where no two tested places are neighbours.
 * @source our own: Moran's cross product, normed by itself as sign-symmetric sums are (de la Peña, Lai & Shao 2009,
 *   Self-Normalized Processes, from memory)
 */
export function leftoverLikeness(scores: ArrayLike<number>, weights: Weights): number {
  checkLengths(scores, weights.rowWeight, 'Scores and weights');
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < weights.places; i += 1) {
    for (let at = weights.offsets[i]!; at < weights.offsets[i + 1]!; at += 1) {
      const product = scores[i]! * scores[weights.neighbours[at]!]!;
      sum += product;
      squares += product * product;
    }
  }
  // Each link stands there from both ends: the sum is twice, and so is that of the squares.
  if (squares === 0) return 1;
  return Math.max(Number.MIN_VALUE, normalCdf(-sum / Math.sqrt(2 * squares)));
}
