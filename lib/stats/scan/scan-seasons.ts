import { planScan } from './plan';
import { runScan } from './run-scan';
import { seasonIntervals } from './scan-cylinders';
import type { ScanPlan, ScanPoints, ScanResult, ScanRun, SeasonScanOptions } from './types';

/**
 * Space-time permutation scan: where did finds come together in space and time more than places and seasons by
 * themselves explain? Needs no tested: the cases' own places and seasons say what is expected.
 *
 * @param counts cases of place × season, season last
 * @param options `shares` and `smallestTested` are of the cases: all in the circle, expected in the window
 * @returns as `scanCylinders`, with `tested: null`
 * @policy A place without cases is left out and counted. Blind to what happens in all places at once, and misled where
 *   testing moved from some places to others between seasons: then more finds came there because more was tested. Use
 *   `scanCylinders` where the tested are known. Too many in one place and season are too few elsewhere, so that the
 *   strongest window may be the mirror image of a large cluster.
 *   The null hypothesis is that of rare cases. Where a large share of few tested is resistant, chance varies less than
 *   that and the test is too careful: on invented null maps it rejected 4.4 % at a share of up to 5 %, 1.8 % at up to
 *   30 %, 0.7 % at up to 55 % and 0.2 % at up to 90 % (nominal 5 %, 2,000 maps each, 20 places × 4 seasons).
 * @throws StatsError as `scanCylinders`
 * @source Kulldorff, Heffernan, Hartman, Assunção & Mostashari 2005, PLoS Medicine 2(3) e59 (from memory): expected =
 *   cases of the circle × cases of the seasons / all cases, and the Poisson likelihood ratio
 * @cost that of a circular scan for each interval of seasons
 */
export function scanSeasons(
  points: ScanPoints,
  counts: { cases: ArrayLike<number>; seasons: number },
  options: SeasonScanOptions & ScanRun,
): ScanResult {
  return runScan(planSeasons(points, counts, options), options);
}

/** Everything of `scanSeasons` that comes before the replicates. */
export function planSeasons(
  points: ScanPoints,
  { cases, seasons }: { cases: ArrayLike<number>; seasons: number },
  options: SeasonScanOptions = {},
): ScanPlan {
  const intervals = seasonIntervals(seasons, options.longestSeasons);
  const perPlace = new Float64Array(points.x.length);
  const perSeason = new Float64Array(seasons);
  let total = 0;
  for (let cell = 0; cell < cases.length; cell += 1) {
    perPlace[Math.floor(cell / seasons)]! += cases[cell]!;
    perSeason[cell % seasons]! += cases[cell]!;
    total += cases[cell]!;
  }
  const sizeOf = (place: number, from: number, to: number) => {
    const inSeasons = perSeason.slice(from, to + 1).reduce((sum, each) => sum + each, 0);
    return (perPlace[place]! * inSeasons) / total;
  };
  const kind = { model: 'poisson', allocation: 'among seasons', intervals, sizeOf } as const;
  return planScan(points, { tested: cases, resistant: cases, seasons }, kind, options);
}
