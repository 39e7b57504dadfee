import { checkCounts } from './errors';
import { normalQuantile } from './normal';

/** Limits of a share, 0 … 1. */
export interface Interval {
  low: number;
  high: number;
}

/**
 * Wilson's score interval for a share: the shares p at which the score test of `cases` of `tested` does not reject.
 *
 * @param cases 0 … tested; `tested` ≥ 1
 * @param level confidence, two-sided, 0.95 unless given
 * @throws StatsError `nothing tested`, `bad count`
 * @source Wilson 1927, JASA 22:209–212; method 3 of Newcombe 1998, Statistics in Medicine 17:857–872
 * @example wilsonInterval(0, 20) // { low: 0, high: 0.161 }
 */
export function wilsonInterval(cases: number, tested: number, level = 0.95): Interval {
  checkCounts(cases, tested, 'Wilson interval');
  const z = normalQuantile((1 + level) / 2);
  const share = cases / tested;
  const z2n = (z * z) / tested;
  const centre = share + z2n / 2;
  const reach = z * Math.sqrt((share * (1 - share) + z2n / 4) / tested);
  return {
    low: cases === 0 ? 0 : (centre - reach) / (1 + z2n),
    high: cases === tested ? 1 : (centre + reach) / (1 + z2n),
  };
}
