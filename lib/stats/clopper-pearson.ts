import { betaQuantile } from './beta';
import { checkCounts } from './errors';
import type { Interval } from './wilson-interval';

/**
 * Clopper and Pearson's interval for a share: it covers the truth at least as often as it says, for any share.
 *
 * @param cases 0 … tested; `tested` ≥ 1
 * @param level confidence, two-sided, 0.95 unless given
 * @throws StatsError `nothing tested`, `bad count`
 * @source Clopper & Pearson 1934, Biometrika 26:404–413; method 5 of Newcombe 1998, Statistics in Medicine 17:857–872
 */
export function clopperPearson(cases: number, tested: number, level = 0.95): Interval {
  checkCounts(cases, tested, 'Clopper–Pearson interval');
  const tail = (1 - level) / 2;
  return {
    low: cases === 0 ? 0 : betaQuantile(tail, cases, tested - cases + 1),
    high: upperLimit(cases, tested, 1 - tail),
  };
}

/**
 * One-sided upper limit of a share, exact: the largest share at which so few cases are still to be expected with
 * probability 1 − level. For 0 of n it is 1 − (1 − level)^(1/n): none in 6 leaves up to 39 %.
 *
 * @throws StatsError `nothing tested`, `bad count`
 * @source as `clopperPearson`, one tail
 */
export function upperLimit(cases: number, tested: number, level = 0.95): number {
  checkCounts(cases, tested, 'Upper limit');
  if (cases === tested) return 1;
  if (cases === 0) return -Math.expm1(Math.log1p(-level) / tested);
  return betaQuantile(level, cases + 1, tested - cases);
}
