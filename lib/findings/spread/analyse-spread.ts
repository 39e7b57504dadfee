import type { SeasonCounts } from '@/lib/stats/spread/types';
import { clusteredTrend } from '@/lib/stats/trend/clustered-trend';
import type { PlaceKind } from '@/lib/vocabulary/terms';
import { findFirstDetections } from '../find-first-detections';
import { findMatchedChange } from '../find-matched-change';
import { findTrend } from '../find-trend';
import { CODES, type Names } from '../names';
import type { Observation } from '../types';
import { findSimpleSpeeds } from './find-simple-speeds';
import { findTogetherness } from './find-togetherness';
import { lookNext } from './look-next';
import { aboutTask, nearnessOfTask } from './nearness-of-task';
import { reassureCounties } from './reassure-counties';
import { speedOfTask } from './speed-of-task';
import { spreadCounts } from './spread-counts';
import type { SpreadAnalysis, SpreadTask } from './types';

/**
 * Everything that is asked of the spread of one species × group, privately, with exact counts of closed seasons. Same
 * task, same analysis, on whatever thread.
 */
export function analyseSpread(task: SpreadTask): SpreadAnalysis {
  const { species, group, design, seasons, ground, populations, seed } = task;
  const shared = spreadCounts(task);
  const { counts, points, weights } = shared;
  const names = namesOf(task);
  const observed = observations(task, counts);
  const byCounty = observed('county');
  const known = knownBefore(task);
  const near = nearnessOfTask(task, shared);
  const speed = speedOfTask(task, shared, { nearnessP: near.p });
  const newest: [number, number] = [seasons[Math.max(0, seasons.length - NEWEST)]!, seasons.at(-1)!];
  const key = { species, group };
  return {
    ...{ kind: 'spread', ...key, design, seed },
    seasons: [seasons[0]!, seasons.at(-1)!],
    tested: populations.season.length,
    resistant: populations.resistant.reduce((sum, one) => sum + one, 0),
    firstDetections: (['county', 'district'] as const)
      .flatMap((placeKind) =>
        findFirstDetections({
          observations: placeKind === 'county' ? byCounty : observed(placeKind),
          ...{ withheld: [], placeKind, names },
        }),
      )
      .filter(({ place }) => !known.has(place)),
    nearness: near,
    speed,
    simpleSpeeds: findSimpleSpeeds(counts, ground, speed),
    togetherness: findTogetherness({ populations, counts, points, seed, about: aboutTask(task) }),
    trend: findTrend({
      ...{ ...key, seasons, grain: 'county', names },
      observations: [...byCounty, ...observed('region')],
    }),
    trendBySenders: trendBySenders(task),
    change:
      seasons.length < 2
        ? null
        : findMatchedChange({
            ...{ ...key, grain: 'county', names, observations: byCounty },
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
