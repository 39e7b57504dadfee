import { shareMoments } from './share-moments';

/** How counts scatter at a given share: `poisson` suits rare cases, `binomial` any share. */
export type Family = 'poisson' | 'binomial';

export interface EmpiricalBayes {
  /** For each place the share drawn towards the mean, the more so the fewer were tested there. */
  estimate: Float64Array;
  /** Weight of each place's own share, 0 … 1. */
  weight: Float64Array;
  mean: number;
  /** Weighted scatter of the raw shares around the mean. */
  variance: number;
}

/**
 * Marshall's global empirical-Bayes shares (method of moments).
 *
 * Where the scatter between places is no more than counting alone explains, every place gets the mean. The estimates
 * are for looking at: never test them as if they were data.
 *
 * @param cases for each place, 0 … tested
 * @param tested for each place, > 0; leave unscreened places out
 * @throws StatsError as `shareMoments`
 * @source Marshall 1991, Applied Statistics 40:283–294, doi 10.2307/2347593. `binomial` shrinks by
 *   n ρ / (1 + (n − 1) ρ) with the moment estimate of the correlation ρ within places.
 */
export function empiricalBayes(
  cases: ArrayLike<number>,
  tested: ArrayLike<number>,
  family: Family,
): EmpiricalBayes {
  const { mean, variance, averageTested } = shareMoments(cases, tested);
  const binomialVariance = mean * (1 - mean);
  const between = Math.max(0, variance - mean / averageTested);
  const correlation = withinCorrelation(variance, binomialVariance, averageTested);
  const estimate = new Float64Array(cases.length);
  const weight = new Float64Array(cases.length);
  for (let i = 0; i < cases.length; i += 1) {
    const n = tested[i]!;
    if (family === 'binomial') weight[i] = (n * correlation) / (1 + (n - 1) * correlation);
    else weight[i] = between === 0 ? 0 : between / (between + mean / n);
    estimate[i] = mean + weight[i]! * (cases[i]! / n - mean);
  }
  return { estimate, weight, mean, variance };
}

/** 0 where it cannot be estimated: all shares 0 or 1 together, or one tested at each place. */
function withinCorrelation(variance: number, binomialVariance: number, averageTested: number): number {
  if (binomialVariance === 0 || averageTested <= 1) return 0;
  const rho = (averageTested * variance - binomialVariance) / ((averageTested - 1) * binomialVariance);
  return Math.min(1, Math.max(0, rho));
}
