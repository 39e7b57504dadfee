import { checkLengths, StatsError } from '../errors';
import { normalQuantile } from '../normal';
import { kendallVariance } from './mann-kendall';

export interface TheilSen {
  /** Median of the slopes of all pairs, in units of value per unit of time. */
  slope: number;
  /** Limits of the interval; null where the series is too short for so high a level. */
  low: number | null;
  high: number | null;
  /** Median of value − slope · time. */
  intercept: number;
}

/**
 * The slope of a straight line through a series that a few odd values cannot bend.
 *
 * @param times rising, one value each
 * @param level confidence of the interval, two-sided, 0.95 unless given
 * @policy Of N sorted slopes the limits have the ranks (N − C) / 2 and (N + C) / 2 + 1 (from 1), with C = z · √variance of
 *   Mann and Kendall's s, ties allowed for; between two ranks the limit is interpolated in a straight line. Programs
 *   that round the ranks differ by at most one slope. Where a rank falls outside 1 … N (four values or fewer at 0.95)
 *   there is no limit: null.
 * @throws StatsError `too few` for fewer than two values; `bad argument` where times do not rise, lengths differ
 * @source Theil 1950, Indagationes Mathematicae 12; Sen 1968, JASA 63:1379–1389; ranks: Gilbert 1987, Statistical
 *   Methods for Environmental Pollution Monitoring, section 16.5 (all from memory)
 * @cost O(n² log n)
 */
export function theilSen(times: ArrayLike<number>, series: ArrayLike<number>, level = 0.95): TheilSen {
  checkLengths(times, series, 'Times and series');
  const variance = kendallVariance(series);
  const slopes = pairSlopes(times, series);
  const slope = atRank(slopes, (slopes.length + 1) / 2)!;
  const reach = normalQuantile((1 + level) / 2) * Math.sqrt(variance);
  const intercepts = Float64Array.from(times, (time, i) => series[i]! - slope * time).sort();
  return {
    slope,
    low: atRank(slopes, (slopes.length - reach) / 2),
    high: atRank(slopes, (slopes.length + reach) / 2 + 1),
    intercept: atRank(intercepts, (intercepts.length + 1) / 2)!,
  };
}

function pairSlopes(times: ArrayLike<number>, series: ArrayLike<number>): Float64Array {
  const slopes = new Float64Array((times.length * (times.length - 1)) / 2);
  let at = 0;
  for (let j = 1; j < times.length; j += 1) {
    if (!(times[j]! > times[j - 1]!)) {
      throw new StatsError(
        'bad argument',
        `Time ${j} is ${times[j]} after ${times[j - 1]}; expected rising.`,
      );
    }
    for (let i = 0; i < j; i += 1) {
      slopes[at] = (series[j]! - series[i]!) / (times[j]! - times[i]!);
      at += 1;
    }
  }
  return slopes.sort();
}

/** Value at a rank from 1, between two ranks in a straight line; null outside. */
function atRank(sorted: Float64Array, rank: number): number | null {
  if (rank < 1 || rank > sorted.length) return null;
  const below = Math.floor(rank);
  const value = sorted[below - 1]!;
  return below === rank ? value : value + (rank - below) * (sorted[below]! - value);
}
