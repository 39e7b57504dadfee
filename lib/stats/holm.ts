/**
 * p adjusted so that, of several tests, any wrong one is flagged only as often as the level says, however they depend
 * on each other (step-down Bonferroni).
 *
 * @param p each in [0, 1]
 * @returns in the order of the input, each at least its p and at most 1
 * @source Holm 1979, Scandinavian Journal of Statistics 6:65–70 (from memory)
 */
export function holm(p: ArrayLike<number>): Float64Array {
  const order = Array.from({ length: p.length }, (_, i) => i).sort((a, b) => p[a]! - p[b]!);
  const adjusted = new Float64Array(p.length);
  let largest = 0;
  order.forEach((i, rank) => {
    largest = Math.max(largest, Math.min(1, (p.length - rank) * p[i]!));
    adjusted[i] = largest;
  });
  return adjusted;
}
