import { planScan } from './plan';
import { runScan } from './run-scan';
import type { ScanModel, ScanOptions, ScanPlan, ScanPoints, ScanResult, ScanRun } from './types';

/** Counts of each place. */
export interface PlaceCounts {
  /** `bernoulli`: tested, whole. `poisson`: the population, or any measure in proportion to what is expected. */
  tested: ArrayLike<number>;
  resistant: ArrayLike<number>;
}

/**
 * Circular scan: which circle of neighbouring places has the most surprising share of resistant among its tested, and
 * how surprising is it, having looked at all circles?
 *
 * @param points of each place
 * @param counts of each place
 * @param model `bernoulli` conditions on what was tested (the default of a screening programme); `poisson` on a
 *   population
 * @returns the windows under each share, strongest first; windows without overlap; p in (0, 1]
 * @policy A place without anything tested is left out and counted. A place that alone holds more than the share is in
 *   no window. No window at all, or none that stands out: `windows` is empty.
 * @throws StatsError of `planScan` and `buildCircles`; `bad argument` for the seed and the number of replicates
 * @source Kulldorff & Nagarwalla 1995, Statistics in Medicine 14:799–810; Kulldorff 1997, Communications in Statistics –
 *   Theory and Methods 26:1481–1496 (both from memory)
 * @cost 3,106 counties, half of the tested (4.3 million windows), 999 replicates: about 3.5 s of one core
 *   (`scripts/bench/clustering.ts`). On several threads: `planCircles`, then `nullMaxima` for ranges of replicates,
 *   then `concludeScan`; `lib/findings/threads/scan-workers.ts` does so.
 * @example scanCircles({ x: lon, y: lat, metric: 'great circle' }, counts, 'bernoulli', { seed: 1, replicates: 999 })
 */
export function scanCircles(
  points: ScanPoints,
  counts: PlaceCounts,
  model: ScanModel,
  options: ScanOptions & ScanRun,
): ScanResult {
  return runScan(planCircles(points, counts, model, options), options);
}

/** Everything of `scanCircles` that comes before the replicates. */
export function planCircles(
  points: ScanPoints,
  counts: PlaceCounts,
  model: ScanModel,
  options: ScanOptions = {},
): ScanPlan {
  const allocation = model === 'bernoulli' ? 'among tested' : 'over expected';
  return planScan(points, { ...counts, seasons: 1 }, { model, allocation, intervals: [[0, 0]] }, options);
}
