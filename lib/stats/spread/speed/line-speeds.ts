import { studentQuantile } from '../../dose-response/tails';
import { checkLengths, StatsError } from '../../errors';
import { quantileLine } from './quantile-line';

/** Simple slopes of distance over time: descriptive, for they take the season of the first find for that of arrival. */
export interface LineSpeeds {
  /** Distance on time by least squares, with its 95 % interval; null with two values. */
  leastSquares: number;
  low: number | null;
  high: number | null;
  intercept: number;
  /** The inverse of time on distance. Null where time does not change with distance. */
  inverse: number | null;
  /** Through the first time at distance 0. */
  throughFirst: number;
  /** Of the leading edge: the line below which nine tenths lie. */
  leadingEdge: number;
}

/**
 * How distance grows with the season of the first find, by the published simple ways. Incomplete sampling lowers most of
 * them by a sixth to three quarters; the inverse one is too high instead.
 *
 * @param times two different ones at least
 * @param distances of first finds from an origin; or roots of areas, of which the radius grows 1 / √π as fast
 * @throws StatsError `bad argument` for lengths that differ; `too few` where all times are the same
 * @source Gilbert & Liebhold 2010, Ecography 33:809–817; Preuss et al. 2014, Methods in Ecology and Evolution 5:37–46
 *   (both as read for the project's statistics brief); area: Skellam 1951, Biometrika 38:196–218 (from memory)
 */
export function lineSpeeds(times: ArrayLike<number>, distances: ArrayLike<number>): LineSpeeds {
  checkLengths(times, distances, 'Times and distances');
  const n = times.length;
  const mean = (values: ArrayLike<number>) => Array.from(values).reduce((sum, v) => sum + v, 0) / n;
  const [meanTime, meanDistance] = [mean(times), mean(distances)];
  let [tt, td, dd] = [0, 0, 0];
  const first = Array.from(times).reduce((least, time) => Math.min(least, time), Number.POSITIVE_INFINITY);
  let [fromFirst, squares] = [0, 0];
  for (let i = 0; i < n; i += 1) {
    const [t, d] = [times[i]! - meanTime, distances[i]! - meanDistance];
    tt += t * t;
    td += t * d;
    dd += d * d;
    fromFirst += (times[i]! - first) * distances[i]!;
    squares += (times[i]! - first) ** 2;
  }
  if (!(tt > 0))
    throw new StatsError('too few', 'All finds are of one season: distance over time needs two.');
  const slope = td / tt;
  const rest = Math.max(0, dd - slope * td);
  const reach = n > 2 ? studentQuantile(0.95, n - 2) * Math.sqrt(rest / (n - 2) / tt) : null;
  return {
    leastSquares: slope,
    low: reach === null ? null : slope - reach,
    high: reach === null ? null : slope + reach,
    intercept: meanDistance - slope * meanTime,
    inverse: td === 0 ? null : dd / td,
    throughFirst: fromFirst / squares,
    leadingEdge: quantileLine(times, distances, 0.9).slope,
  };
}
