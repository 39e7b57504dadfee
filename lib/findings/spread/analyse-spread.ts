import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import { clusteredTrend } from '@/lib/stats/trend/clustered-trend';
import { buildWeights } from '@/lib/stats/weights';
import { type PlaceKind, periodLabel } from '@/lib/vocabulary/terms';
import { findFirstDetections } from '../find-first-detections';
import { findMatchedChange } from '../find-matched-change';
import { findTrend } from '../find-trend';
import { CODES, type Names } from '../names';
import type { Observation } from '../types';
import { findNearness } from './find-nearness';
import { findSimpleSpeeds } from './find-simple-speeds';
import { findTogetherness } from './find-togetherness';
import { lookNext } from './look-next';
import { reassureCounties } from './reassure-counties';
import { speedOfTask } from './speed-of-task';
import { spreadCounts } from './spread-counts';
import type { SpreadAnalysis, SpreadTask } from './types';

/**
 * Everything that is asked of the spread of one species × group, privately, with exact counts of closed seasons. Same
 * task, same analysis, on whatever thread.
 */
export function analyseSpread(task: SpreadTask): SpreadAnalysis {
  const { species, group, design, seasons, ground, populations, seed, speciesName } = task;
  const counts = spreadCounts(task);
  const points: SpreadPoints = { x: ground.lon, y: ground.lat, metric: 'great circle' };
  const weights = buildWeights(ground.neighbours, 'binary');
  const about = `${speciesName}, group ${group}, ${periodLabel({ first: seasons[0]!, last: seasons.at(-1)! })}`;
  const names = namesOf(task);
  const observed = observations(task, counts);
  const near = findNearness({ counts: withEarlierFinds(task, counts), weights, points, seed, about });
  const speed = speedOfTask(task, { nearnessP: near.p });
  const newest: [number, number] = [seasons[Math.max(0, seasons.length - NEWEST)]!, seasons.at(-1)!];
  const key = { species, group };
  return {
    ...{ kind: 'spread', ...key, design, seed },
    seasons: [seasons[0]!, seasons.at(-1)!],
    tested: populations.season.length,
    resistant: populations.resistant.reduce((sum, one) => sum + one, 0),
    firstDetections: (['county', 'district'] as const)
      .flatMap((placeKind) =>
        findFirstDetections({ observations: observed(placeKind), withheld: [], placeKind, names }),
      )
      .filter(({ place }) => !knownBefore(task).has(place)),
    nearness: near,
    speed,
    simpleSpeeds: findSimpleSpeeds(counts, ground, speed),
    togetherness: findTogetherness({ populations, counts, points, seed, about }),
    trend: findTrend({
      ...{ ...key, seasons, grain: 'county', names },
      observations: [...observed('county'), ...observed('region')],
    }),
    trendBySenders: trendBySenders(task),
    change:
      seasons.length < 2
        ? null
        : findMatchedChange({
            ...{ ...key, grain: 'county', names, observations: observed('county') },
            ...{ from: seasons.at(-2)!, to: seasons.at(-1)! },
          }),
    reassurance: { seasons: newest, counties: reassureCounties(counts, ground.counties, NEWEST) },
    lookNext: lookNext({
      ...{ ...key, placeKind: 'county', places: ground.counties, counts, weights, points, names },
      ...{ season: task.next, foundBefore: task.foundBefore, exposure: task.exposure },
    }),
  };
}

/** Closed seasons whose clean tests still reassure: as many as a window of a release has. */
const NEWEST = 3;

/**
 * What was known before the programme counts as found in a season before all others, and nowhere else: such a county is
 * never at risk, and its neighbours have an earlier find next door.
 */
function withEarlierFinds({ ground, foundBefore }: SpreadTask, counts: SeasonCounts): SeasonCounts {
  if (foundBefore.length === 0) return counts;
  const earlier = new Set(foundBefore);
  const known = Int32Array.from(ground.counties, (county) => Number(earlier.has(county)));
  const before = (values: Int32Array) => Int32Array.from([...known, ...values]);
  return {
    ...counts,
    seasons: [counts.seasons[0]! - 1, ...Array.from(counts.seasons)],
    tested: before(counts.tested),
    resistant: before(counts.resistant),
  };
}

/** Counties with a find known before the programme, and their districts. */
function knownBefore({ ground, foundBefore }: SpreadTask): Set<string> {
  const districts = foundBefore.flatMap((county) => {
    const district = ground.districtOf[ground.counties.indexOf(county)];
    return district == null ? [] : [ground.districts[district]!];
  });
  return new Set([...foundBefore, ...districts]);
}

function namesOf({ ground, speciesName }: SpreadTask): Names {
  const named = new Map<string, string>([
    ...ground.counties.map((key, i) => [`county ${key}`, ground.countyNames[i]!] as const),
    ...ground.districts.map((key, i) => [`district ${key}`, ground.districtNames[i]!] as const),
  ]);
  return { ...CODES, species: () => speciesName, place: (kind, key) => named.get(`${kind} ${key}`) ?? key };
}

/** Exact counts by season at a kind of place. */
function observations({ species, group, seasons, ground }: SpreadTask, counts: SeasonCounts) {
  const placeOf: Partial<Record<PlaceKind, (county: number) => string | null>> = {
    county: (i) => ground.counties[i]!,
    district: (i) => (ground.districtOf[i] == null ? null : ground.districts[ground.districtOf[i]!]!),
    region: () => 'region',
  };
  return (placeKind: 'county' | 'district' | 'region'): Observation[] => {
    const found = new Map<string, Observation>();
    counts.tested.forEach((tested, cell) => {
      const season = seasons[Math.floor(cell / counts.places)]!;
      const place = placeOf[placeKind]!(cell % counts.places);
      if (tested === 0 || place === null) return;
      const own = found.get(`${place}|${season}`) ?? {
        ...{ placeKind, place, species, group, tested: 0, resistant: 0 },
        period: { first: season, last: season },
      };
      own.tested += tested;
      own.resistant += counts.resistant[cell]!;
      found.set(`${place}|${season}`, own);
    });
    return [...found.values()];
  };
}

function trendBySenders({ seasons, populations }: SpreadTask): SpreadAnalysis['trendBySenders'] {
  if (new Set(populations.season).size < 2) return null;
  const { p, designEffect } = clusteredTrend(
    {
      scores: populations.season.map((row) => seasons[row]!),
      tested: populations.season.map(() => 1),
      resistant: populations.resistant,
    },
    populations.sender,
  );
  return p === null ? null : { p, designEffect };
}
