import { areaOfCounty, countiesOf, findAreas } from '@/lib/geography/areas';
import type { AreaTable, Region } from '@/lib/geography/types';
import { deriveSeed } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import type { Pair, Period, PlaceKind, Season } from '@/lib/vocabulary/terms';
import { findClustering, MINIMUM_PLACES } from './find-clustering';
import { findFirstDetections } from './find-first-detections';
import { findMatchedChange } from './find-matched-change';
import { findTrend } from './find-trend';
import { type Names, regionNames } from './names';
import { type PlaceOf, placeNeighbours, placePoints } from './place-neighbours';
import { findSpeed } from './spread/find-speed';
import type { Clustering, Finding, Observation, SpeedOfSpread, Trend, WithheldCell } from './types';

export interface FindingsInput {
  /** One assay and one choice of designs, closed seasons; area or county × window, district × window or season. */
  observations: readonly Observation[];
  /** Cells that were screened and are not among the observations; empty where the caller knows all. */
  withheld: readonly WithheldCell[];
  region: Region;
  pairs: readonly Pair[];
  windows: readonly Period[];
  closedSeasons: readonly Season[];
  /** How counties are joined in each window; a county of no area stands by itself. */
  areas: readonly AreaTable[];
  /** How the districts of a pair are known: seasons, or windows where seasons are not shown; never overlapping. */
  districtPeriods: (pair: Pair) => readonly Period[];
  seed: number;
  permutations: number;
  /** How sentences name a species. */
  speciesName: Names['species'];
}

/**
 * Every finding of a table of known counts, for each species × group: clustering in each window (by areas and counties
 * where at least 20 known ones have a known neighbour, else by district), first detections (counties that stand by
 * themselves × window, district × season, or by window where seasons are not shown), and the matched change between the
 * last two closed seasons (by district, or by state where fewer than two districts are known in both), the trend over
 * all closed seasons (at the same grains), and the speed of spread (by district × season).
 *
 * A function of its input alone, in whatever order that comes. Each map draws from its own seed,
 * `deriveSeed(seed, 'clustering|species|group|first–last|grain')`, so that no map depends on which others are made.
 *
 * @throws RangeError for a place given twice; StatsError for impossible counts
 * @cost about 70 ms for a map of 328 counties at 9,999 permutations (80 maps: 5.3 s of one core)
 */
export function computeFindings(input: FindingsInput): Finding[] {
  const setting = {
    input,
    table: indexCells(input.observations),
    withheld: indexCells(input.withheld),
    names: regionNames(input.region, input.speciesName),
  };
  const pairs = [...input.pairs].sort((a, b) =>
    a.species < b.species ? -1 : a.species > b.species ? 1 : a.group - b.group,
  );
  return pairs.flatMap((pair) => [
    ...byFirst(input.windows).map((period) => clustering(setting, pair, period)),
    ...firstDetections(setting, pair, 'county', input.windows),
    ...firstDetections(setting, pair, 'district', input.districtPeriods(pair)),
    ...matchedChange(setting, pair),
    trend(setting, pair),
    ...speed(setting, pair),
  ]);
}

interface Setting {
  input: FindingsInput;
  table: CellIndex<Observation>;
  withheld: CellIndex<WithheldCell>;
  names: Names;
}

function clustering(setting: Setting, pair: Pair, period: Period): Clustering {
  const { input, table, names } = setting;
  const areaOf = areaOfCounty(findAreas(input.areas, pair.species, period.first));
  const at = (grain: Clustering['grain']) => {
    const placeOf: PlaceOf = ({ fips, district }) =>
      grain === 'district' ? district : (areaOf.get(fips) ?? fips);
    return findClustering({
      ...pair,
      observations:
        grain === 'district'
          ? table(pair, grain, period)
          : [...table(pair, 'county', period), ...table(pair, 'area', period)],
      neighbours: placeNeighbours(input.region, placeOf),
      points: placePoints(input.region, placeOf),
      grain,
      period,
      seed: deriveSeed(
        input.seed,
        `clustering|${pair.species}|${pair.group}|${period.first}–${period.last}|${grain}`,
      ),
      permutations: input.permutations,
      names,
    });
  };
  const byArea = at('area');
  const enough = byArea.places >= MINIMUM_PLACES.area || input.region.districts.length === 0;
  return enough ? byArea : at('district');
}

/** Of a county that is part of an area nothing is known there, as if it were withheld. */
function unknownCounties(setting: Setting, pair: Pair, period: Period): WithheldCell[] {
  const areas = [...setting.table(pair, 'area', period), ...setting.withheld(pair, 'area', period)];
  return areas.flatMap(({ place }) =>
    countiesOf(place).map((county) => ({ ...pair, placeKind: 'county' as const, place: county, period })),
  );
}

function firstDetections(
  setting: Setting,
  pair: Pair,
  placeKind: PlaceKind,
  periods: readonly Period[],
): Finding[] {
  return findFirstDetections({
    observations: periods.flatMap((period) => setting.table(pair, placeKind, period)),
    withheld: periods.flatMap((period) => [
      ...setting.withheld(pair, placeKind, period),
      ...(placeKind === 'county' ? unknownCounties(setting, pair, period) : []),
    ]),
    placeKind,
    names: setting.names,
  });
}

function matchedChange({ input, table, names }: Setting, pair: Pair): Finding[] {
  const [from, to] = [...input.closedSeasons].sort((a, b) => a - b).slice(-2);
  if (from === undefined || to === undefined) return [];
  const at = (grain: PlaceKind) => {
    const observations = [from, to].flatMap((season) => table(pair, grain, { first: season, last: season }));
    return findMatchedChange({ ...pair, observations, from, to, grain, names });
  };
  const byDistrict = at('district');
  // Fewer than two matched districts compare next to nothing; states are coarser, and known more often.
  return [byDistrict.places > 1 ? byDistrict : at('state')];
}

/** By district where at least two are known in two seasons, else by state; the region's series beside it. */
function trend({ input, table, names }: Setting, pair: Pair): Trend {
  const seasons = [...input.closedSeasons].sort((a, b) => a - b);
  const at = (grain: PlaceKind) => {
    const observations = [grain, 'region' as const].flatMap((kind) =>
      seasons.flatMap((season) => table(pair, kind, { first: season, last: season })),
    );
    return findTrend({ ...pair, observations, seasons, grain, names });
  };
  const byDistrict = at('district');
  return byDistrict.places > 1 ? byDistrict : at('state');
}

/** From districts, season by season, each share averaged over its counties; withheld cells count as not tested. */
function speed({ input, table, names }: Setting, pair: Pair): SpeedOfSpread[] {
  const { counties, districts } = input.region;
  if (districts.length === 0) return [];
  const codes = districts.map(({ code }) => code);
  const at = new Map(codes.map((code, i) => [code, i]));
  const seasons = [...input.closedSeasons].sort((a, b) => a - b);
  const counts = {
    ...{ seasons, places: codes.length },
    tested: new Int32Array(seasons.length * codes.length),
    resistant: new Int32Array(seasons.length * codes.length),
  };
  seasons.forEach((season, row) => {
    for (const { place, tested, resistant } of table(pair, 'district', { first: season, last: season })) {
      counts.tested[row * codes.length + at.get(place)!] = tested;
      counts.resistant[row * codes.length + at.get(place)!] = resistant;
    }
  });
  const touching = placeNeighbours(input.region, ({ district }) => district);
  const lists = codes.map((code) => (touching.get(code) ?? []).map((other) => at.get(other)!));
  const members = codes.map((code) => counties.flatMap(({ district }, i) => (district === code ? [i] : [])));
  return [
    findSpeed({
      ...pair,
      map: {
        counts,
        members,
        points: {
          x: counties.map(({ lon }) => lon),
          y: counties.map(({ lat }) => lat),
          metric: 'great circle',
        },
      },
      grain: 'district',
      points: counties.map(({ fips }) => fips),
      pointNames: counties.map(({ fips }) => names.place('county', fips)),
      options: { weights: buildWeights(lists, 'binary'), nearnessP: null },
      speciesName: names.species(pair.species),
    }),
  ];
}

type CellIndex<T> = (pair: Pair, kind: PlaceKind, period: Period) => readonly T[];

function indexCells<T extends WithheldCell>(cells: readonly T[]): CellIndex<T> {
  const lists = new Map<string, T[]>();
  const key = ({ species, group }: Pair, kind: PlaceKind, { first, last }: Period) =>
    `${species}|${group}|${kind}|${first}|${last}`;
  for (const cell of cells) {
    const at = key(cell, cell.placeKind, cell.period);
    const list = lists.get(at);
    if (list) list.push(cell);
    else lists.set(at, [cell]);
  }
  return (pair, kind, period) => lists.get(key(pair, kind, period)) ?? [];
}

function byFirst(periods: readonly Period[]): Period[] {
  return [...periods].sort((a, b) => a.first - b.first);
}
