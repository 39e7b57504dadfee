import { whereDefined } from '@/lib/stats/errors';
import { deriveSeed } from '@/lib/stats/random';
import { scanCircles } from '@/lib/stats/scan/scan-circles';
import { scanCylinders } from '@/lib/stats/scan/scan-cylinders';
import { scanSeasons } from '@/lib/stats/scan/scan-seasons';
import type { ScanAtLimit, ScanResult, ScanWindow } from '@/lib/stats/scan/types';
import type { MapTask, MapTests, ScanCircleResult } from './types';

/** A cylinder lasts at most so many seasons; what lasts longer is seen in its strongest seasons, and by the circles. */
const LONGEST_SEASONS = 3;

/** At most so many windows of each scan are kept. */
const MOST = 5;

/**
 * Scans of one map: circles at two limits, and cylinders where the period has several seasons and the map holds all designs:
 * those of a single one are mostly too few to be told apart by season.
 */
export function scanMap(
  task: MapTask,
  replicates: number,
): Pick<MapTests, 'circles' | 'cylinders' | 'seasonPermutation'> {
  const placed = task.observations.flatMap((one, row) =>
    one.tested > 0 && task.points.has(one.place) ? [{ ...one, row }] : [],
  );
  const at = placed.map(({ place }) => task.points.get(place)!);
  const where = { x: at.map(({ lon }) => lon), y: at.map(({ lat }) => lat), metric: 'great circle' as const };
  const { seasons } = task.bySeason;
  const ofSeasons = (counts: readonly number[]) =>
    placed.flatMap(({ row }) => counts.slice(row * seasons, (row + 1) * seasons));
  const [tested, resistant] = [ofSeasons(task.bySeason.tested), ofSeasons(task.bySeason.resistant)];
  const run = (test: string) => ({ seed: deriveSeed(task.seed, test), replicates, most: MOST });
  const { first, last } = task.period;
  const told = ({ windows }: ScanAtLimit, seasonsOf: (window: ScanWindow) => [number, number]) =>
    windows.map((window) => named(window, placed, seasonsOf(window)));
  const strongest = (scan: () => ScanResult) => {
    if (seasons < 2 || task.design !== null) return null;
    const scanned = whereDefined(NOTHING_STANDS_OUT, scan);
    return scanned && told(scanned.limits[0]!, ({ seasons: [from, to] }) => [first + from, first + to]);
  };

  const counts = { tested: placed.map((one) => one.tested), resistant: placed.map((one) => one.resistant) };
  const circles = whereDefined(NOTHING_STANDS_OUT, () =>
    scanCircles(where, counts, 'bernoulli', run('circles')),
  );
  const longestSeasons = Math.min(LONGEST_SEASONS, Math.floor(seasons / 2));
  const limits = { shares: [0.5], longestSeasons };
  return {
    circles: {
      half: circles ? told(circles.limits[0]!, () => [first, last]) : [],
      quarter: circles ? told(circles.limits[1]!, () => [first, last]) : [],
    },
    cylinders: strongest(() =>
      scanCylinders(where, { tested, resistant, seasons }, 'bernoulli', { ...run('cylinders'), ...limits }),
    ),
    seasonPermutation: strongest(() =>
      scanSeasons(where, { cases: resistant, seasons }, { ...run('seasons'), ...limits }),
    ),
  };
}

function named(
  { centre, places, radius, tested, resistant, expected, relativeRisk, p, pGumbel }: ScanWindow,
  placed: readonly { place: string }[],
  seasons: [number, number],
): ScanCircleResult {
  return {
    centre: placed[centre]!.place,
    places: [...places].map((i) => placed[i]!.place),
    radiusKm: radius,
    seasons,
    ...{ tested, resistant, expected, relativeRisk, p, pGumbel },
  };
}

/** Too few places, none or all resistant, or one season leave nothing that could stand out. */
const NOTHING_STANDS_OUT = ['constant', 'too few'] as const;
