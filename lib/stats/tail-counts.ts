import { checkPermutations } from './errors';

export interface TailCounts {
  /** (M + 1) / (R + 1), M of R replicates with a statistic at least as large: in (0, 1]. */
  pGreater: number;
  /** The same for a statistic at least as small. */
  pLess: number;
  permutations: number;
  /** Mean and standard deviation of the statistic over the replicates. */
  mean: number;
  deviation: number;
}

/**
 * Where a statistic lies among its replicates under the null hypothesis.
 *
 * @param observed the statistic of the data
 * @param slack replicates that differ by no more tie with it, and count as at least as large and as at least as small
 * @param replicate the statistic of the next replicate; called `permutations` times
 * @throws StatsError `bad argument` for permutations < 1
 * @source (M + 1) / (R + 1): Phipson & Smyth 2010, Statistical Applications in Genetics and Molecular Biology 9(1) 39
 */
export function tailCounts(
  { observed, slack, permutations }: { observed: number; slack: number; permutations: number },
  replicate: () => number,
): TailCounts {
  checkPermutations(permutations);
  let atLeast = 0;
  let atMost = 0;
  let sum = 0;
  let squares = 0;
  for (let r = 0; r < permutations; r += 1) {
    const difference = replicate() - observed;
    if (difference >= -slack) atLeast += 1;
    if (difference <= slack) atMost += 1;
    sum += difference;
    squares += difference * difference;
  }
  const mean = sum / permutations;
  return {
    pGreater: (atLeast + 1) / (permutations + 1),
    pLess: (atMost + 1) / (permutations + 1),
    permutations,
    mean: observed + mean,
    deviation: Math.sqrt(Math.max(0, squares / permutations - mean * mean)),
  };
}
