import { StatsError } from '../errors';
import { planScan, type SeasonCounts } from './plan';
import { runScan } from './run-scan';
import type { ScanModel, ScanPlan, ScanPoints, ScanResult, ScanRun, SeasonScanOptions } from './types';

/**
 * Space-time scan, looking back: which circle of places, over which seasons in a row, has the most surprising share of
 * resistant, and how surprising is it, having looked at all such cylinders?
 *
 * @param counts of place × season; tested as in `scanCircles`
 * @param options a window holds at most `shares` of all tested over all seasons in its circle, and lasts at most
 *   `longestSeasons`
 * @policy As `scanCircles`; a season or a cell without anything tested adds nothing. Under the null hypothesis one rate
 *   holds everywhere and always: a general trend of the share is found as a cluster in its late seasons. Where that is
 *   not the question, `scanSeasons` allows for it.
 * @throws StatsError as `scanCircles`; `too few` with fewer than 2 seasons
 * @source Kulldorff, Athas, Feuer, Miller & Key 1998, American Journal of Public Health 88:1377–1380 (from memory)
 * @cost that of `scanCircles` for each interval of seasons
 */
export function scanCylinders(
  points: ScanPoints,
  counts: SeasonCounts,
  model: ScanModel,
  options: SeasonScanOptions & ScanRun,
): ScanResult {
  return runScan(planCylinders(points, counts, model, options), options);
}

/** Everything of `scanCylinders` that comes before the replicates. */
export function planCylinders(
  points: ScanPoints,
  counts: SeasonCounts,
  model: ScanModel,
  options: SeasonScanOptions = {},
): ScanPlan {
  const intervals = seasonIntervals(counts.seasons, options.longestSeasons);
  const allocation = model === 'bernoulli' ? 'among tested' : 'over expected';
  return planScan(points, counts, { model, allocation, intervals }, options);
}

/** First and last season of every interval of at most so many seasons, by default half of them. */
export function seasonIntervals(seasons: number, longest = Math.floor(seasons / 2)): [number, number][] {
  if (!(Number.isInteger(seasons) && seasons >= 2)) {
    throw new StatsError('too few', `Got ${seasons} seasons; a scan over seasons needs at least 2.`);
  }
  if (!(Number.isInteger(longest) && longest >= 1 && longest <= seasons)) {
    throw new StatsError('bad argument', `Got ${longest} as the most seasons; expected 1 to ${seasons}.`);
  }
  const intervals: [number, number][] = [];
  for (let from = 0; from < seasons; from += 1) {
    for (let to = from; to < Math.min(seasons, from + longest); to += 1) intervals.push([from, to]);
  }
  return intervals;
}
