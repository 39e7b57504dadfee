import { checkCounts, checkLengths, StatsError } from './errors';

/** Mean and scatter of the shares of some places, each weighted by what was tested there. */
export interface ShareMoments {
  /** All cases over all tested. */
  mean: number;
  /** Σ tested (share − mean)² / Σ tested. */
  variance: number;
  /** Mean number tested at a place. */
  averageTested: number;
}

/**
 * @param cases for each place, 0 … tested
 * @param tested for each place, > 0
 * @throws StatsError `too few` without a place, `nothing tested`, `bad count`, `bad argument` where lengths differ
 * @source Marshall 1991, Applied Statistics 40:283–294, doi 10.2307/2347593 (b and s²)
 */
export function shareMoments(cases: ArrayLike<number>, tested: ArrayLike<number>): ShareMoments {
  checkLengths(cases, tested, 'Cases and tested');
  if (cases.length === 0) throw new StatsError('too few', 'No place was given; expected at least one.');
  let sumCases = 0;
  let sumTested = 0;
  for (let i = 0; i < cases.length; i += 1) {
    checkCounts(cases[i]!, tested[i]!, `Place ${i}`);
    sumCases += cases[i]!;
    sumTested += tested[i]!;
  }
  const mean = sumCases / sumTested;
  let scatter = 0;
  for (let i = 0; i < cases.length; i += 1) {
    const deviation = cases[i]! / tested[i]! - mean;
    scatter += tested[i]! * deviation * deviation;
  }
  return { mean, variance: scatter / sumTested, averageTested: sumTested / cases.length };
}
