import { checkCounts, checkLengths } from './errors';

/** The mean from which the scatter inside a neighbourhood is taken. */
export type Deviation = 'own mean' | 'focal mean';

export interface LocalEmpiricalBayes {
  /** Share of each place drawn towards the mean of itself and its neighbours. */
  estimate: Float64Array;
  /** Mean share of each place and its neighbours. */
  mean: Float64Array;
  /** Variance between places inside each neighbourhood beyond counting; 0 where counting explains all. */
  between: Float64Array;
}

/**
 * Marshall's local empirical-Bayes shares: the neighbourhood is the place itself and its neighbours, counts scatter
 * as Poisson. A place without neighbours keeps its own share.
 *
 * @param cases for each place, 0 … tested
 * @param tested for each place, > 0
 * @param neighbours for each place the indices of its neighbours, without itself
 * @param deviation `focal mean` is the textbook form, Σ n_j (r_j − m_i)²; `own mean` sets each neighbour against the
 *   mean of its own neighbourhood, Σ n_j (r_j − m_j)², as a widespread R package does
 * @throws StatsError `nothing tested`, `bad count`, `bad argument` where lengths differ
 * @source Marshall 1991, Applied Statistics 40:283–294, doi 10.2307/2347593
 */
export function localEmpiricalBayes(
  cases: ArrayLike<number>,
  tested: ArrayLike<number>,
  neighbours: readonly (readonly number[])[],
  deviation: Deviation = 'focal mean',
): LocalEmpiricalBayes {
  checkLengths(cases, tested, 'Cases and tested');
  for (let i = 0; i < cases.length; i += 1) checkCounts(cases[i]!, tested[i]!, `Place ${i}`);
  const circles = neighbours.map((list, i) => [i, ...list]);
  const sum = (values: ArrayLike<number>, circle: number[]) => circle.reduce((s, j) => s + values[j]!, 0);
  const mean = Float64Array.from(circles, (circle) => sum(cases, circle) / sum(tested, circle));
  const between = Float64Array.from(circles, (circle, i) => {
    const all = sum(tested, circle);
    const scatter = circle.reduce((s, j) => {
      const centre = deviation === 'own mean' ? mean[j]! : mean[i]!;
      return s + tested[j]! * (cases[j]! / tested[j]! - centre) ** 2;
    }, 0);
    return Math.max(0, scatter / all - mean[i]! / (all / circle.length));
  });
  const estimate = Float64Array.from(circles, (_, i) => {
    const weight = between[i] === 0 ? 0 : between[i]! / (between[i]! + mean[i]! / tested[i]!);
    return mean[i]! + weight * (cases[i]! / tested[i]! - mean[i]!);
  });
  return { estimate, mean, between };
}
