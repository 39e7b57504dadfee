import { StatsError } from '../errors';
import { twoSidedP } from '../two-sided-p';
import { kendallNull } from './kendall-null';

export interface MannKendall {
  values: number;
  /** Pairs that rise minus pairs that fall. */
  s: number;
  /** Of s when all orders are equally likely, ties allowed for. */
  variance: number;
  /** With continuity correction: s moved by 1 towards 0. 0 where all values are equal. */
  z: number;
  /** Kendall's tau-b, −1 … 1; null where all values are equal. */
  tau: number | null;
  /** Two-sided, in (0, 1]: twice the smaller tail, at most 1. */
  p: number;
  method: 'exact' | 'normal';
  /** The smallest p that a series with these ties can have: above the level, nothing could be found; null if `normal`. */
  smallestP: number | null;
}

/**
 * Does a series rise or fall, whatever the shape? Exact for short series, ties or none.
 *
 * @param series one value for each season, in order of time; any scale
 * @param method `exact` lists all orders by convolution; default: exact up to 50 values, else normal with the variance
 *   corrected for ties and the continuity correction
 * @policy Seasons without a value are left out before; only the order counts, not the distance. All equal: s = 0, p = 1.
 *   Seasons that depend on each other (the same fields sent again) make p too small.
 * @throws StatsError `too few` for fewer than two values, `bad argument` for a value that is no number
 * @source Mann 1945, Econometrica 13:245–259; Kendall 1975, Rank Correlation Methods, 4th ed. (both from memory); the
 *   exact distribution: see `kendallNull`
 * @cost O(n²), exact as `kendallNull`
 */
export function mannKendall(series: ArrayLike<number>, method?: 'exact' | 'normal'): MannKendall {
  checkSeries(series);
  const n = series.length;
  const s = risesMinusFalls(series);
  const ties = tieSizes(series);
  const untied = ties.reduce((pairs, size) => pairs - (size * (size - 1)) / 2, (n * (n - 1)) / 2);
  const correction = ties.reduce((sum, size) => sum + size * (size - 1) * (2 * size + 5), 0);
  const variance = (n * (n - 1) * (2 * n + 5) - correction) / 18;
  const z = variance > 0 ? (s - Math.sign(s)) / Math.sqrt(variance) : 0;
  const tau = untied > 0 ? s / Math.sqrt(untied * ((n * (n - 1)) / 2)) : null;
  const found = { values: n, s, variance, z, tau };
  if ((method ?? (n <= LONGEST_EXACT ? 'exact' : 'normal')) === 'normal') {
    return { ...found, p: variance > 0 ? twoSidedP(z) : 1, method: 'normal', smallestP: null };
  }
  const falls = kendallNull(ties);
  // The distribution is symmetric, so one tail serves for both.
  let tail = 0;
  for (let f = 0; f <= (untied - Math.abs(s)) / 2; f += 1) tail += falls[f]!;
  return { ...found, p: Math.min(1, 2 * tail), method: 'exact', smallestP: Math.min(1, 2 * falls[0]!) };
}

/** How often each different value occurs. */
function tieSizes(series: ArrayLike<number>): number[] {
  const sizes = new Map<number, number>();
  for (let i = 0; i < series.length; i += 1) sizes.set(series[i]!, (sizes.get(series[i]!) ?? 0) + 1);
  return [...sizes.values()];
}

/** The variance of s alone, as `theilSen` needs it. */
export function kendallVariance(series: ArrayLike<number>): number {
  return mannKendall(series, 'normal').variance;
}

function checkSeries(series: ArrayLike<number>): void {
  if (series.length < 2) {
    throw new StatsError('too few', `Got ${series.length} values; a trend needs two at least.`);
  }
  for (let i = 0; i < series.length; i += 1) {
    if (!Number.isFinite(series[i]!)) {
      throw new StatsError('bad argument', `Value ${i} is ${series[i]}; leave seasons without a value out.`);
    }
  }
}

function risesMinusFalls(series: ArrayLike<number>): number {
  let s = 0;
  for (let j = 1; j < series.length; j += 1) {
    for (let i = 0; i < j; i += 1) s += Math.sign(series[j]! - series[i]!);
  }
  return s;
}

const LONGEST_EXACT = 50;
