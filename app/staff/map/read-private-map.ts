import type { StaffDatabase } from '@/db/clients/staff';
import { listAnalyses, readParts } from '@/db/repositories/analyses';
import { countPair, type PairCounts, type SeasonCount } from '@/db/repositories/pair-counts';
import { questionsByCounty } from '@/db/repositories/questions-by-county';
import type { SpreadAnalysis } from '@/lib/findings/spread/types';
import type { Clustering } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';
import type { Fips, PlaceKey, Season } from '@/lib/vocabulary/terms';
import type { Grain, MapView } from './map-view';
import { countiesIn } from './place-facts';

/** Populations of one place: `tested` = `resistant` + `someSurvivors` + susceptible. */
export type PlaceCounts = Omit<SeasonCount, 'county' | 'season'>;

/** Counts of a place in the period, and who sent those that were tested. */
export type PlaceCell = PlaceCounts & { operations: number; largestOperation: number };

/** Everything that the private map shows. */
export interface PrivateMap extends Pick<PairCounts, 'parts' | 'crops' | 'funders'> {
  view: MapView;
  /** By place of the grain, in the period. */
  cells: Map<string, PlaceCell>;
  /** First season with a resistant population, up to the end of the period. */
  since: Map<string, Season>;
  /** The chosen place in each season since the pair was first screened. */
  trend: (PlaceCounts & { season: Season })[];
  /** Of the last analysis for this period and design; null where it has none or another layer is shown. */
  clustering: Clustering | null;
  spread: SpreadAnalysis | null;
  /** Rows that wait, by county. */
  questions: Map<string, number>;
}

/** Reads what a view shows. */
export async function readPrivateMap(db: StaffDatabase, view: MapView, region: Region): Promise<PrivateMap> {
  const placeOf = placesOf(region, view.by);
  const chosen = countiesIn(region, view.place);
  const [counted, analysed, questions] = await Promise.all([
    countPair(db, { ...view, placeOf, chosen }),
    lastAnalysis(db, view),
    view.layer === 'questions' ? questionsByCounty(db) : new Map<string, number>(),
  ]);
  const { parts, crops, funders } = counted;
  return {
    ...{ view, parts, crops, funders, ...analysed, questions },
    cells: cellsOf(counted, view, placeOf),
    since: sinceWhen(counted.seasons, view.period.last, placeOf),
    trend: trendOf(counted, new Set(chosen)),
  };
}

/** What the last analysis says of the pair, and of the period and design where the layer shows it. */
async function lastAnalysis(db: StaffDatabase, { layer, pair, period, design }: MapView) {
  const [latest] = await listAnalyses(db);
  if (!latest) return { clustering: null, spread: null };
  const maps = layer === 'cluster' ? await readParts(db, latest.id, { kind: 'map', ...pair }) : [];
  const spreads = await readParts(db, latest.id, { kind: 'spread', ...pair });
  const map = maps.find(
    (one) => one.period.first === period.first && one.period.last === period.last && one.design === design,
  );
  return {
    clustering: map?.clustering ?? null,
    spread: spreads.find((one) => one.design === null) ?? null,
  };
}

/** The place of a grain that each county belongs to. */
function placesOf(region: Region, grain: Grain): Map<Fips, PlaceKey> {
  return new Map(
    region.counties.flatMap(({ fips, district, state }): [Fips, PlaceKey][] => {
      const place = grain === 'county' ? fips : grain === 'district' ? district : state;
      return place ? [[fips, place]] : [];
    }),
  );
}

function cellsOf(
  { seasons, senders }: PairCounts,
  { period }: MapView,
  placeOf: ReadonlyMap<Fips, PlaceKey>,
): Map<string, PlaceCell> {
  const cells = new Map<string, PlaceCell>();
  for (const count of seasons) {
    const place = placeOf.get(count.county);
    if (place === undefined || count.season < period.first || count.season > period.last) continue;
    const cell = cells.get(place) ?? { ...NOTHING, operations: 0, largestOperation: 0 };
    cells.set(place, { ...cell, ...sum(cell, count) });
  }
  for (const { place, ...sent } of senders) cells.set(place, { ...cells.get(place)!, ...sent });
  return cells;
}

function sinceWhen(
  seasons: readonly SeasonCount[],
  last: Season,
  placeOf: ReadonlyMap<Fips, PlaceKey>,
): Map<string, Season> {
  const since = new Map<string, Season>();
  for (const { county, season, resistant } of seasons) {
    const place = placeOf.get(county);
    if (place === undefined || resistant === 0 || season > last) continue;
    since.set(place, Math.min(season, since.get(place) ?? season));
  }
  return since;
}

function trendOf({ seasons, span }: PairCounts, chosen: ReadonlySet<Fips>): PrivateMap['trend'] {
  if (!span) return [];
  const trend = Array.from({ length: span.last - span.first + 1 }, (_, i) => ({
    ...{ season: span.first + i, ...NOTHING },
  }));
  for (const count of seasons) {
    const at = count.season - span.first;
    if (chosen.has(count.county)) trend[at] = { ...trend[at]!, ...sum(trend[at]!, count) };
  }
  return trend;
}

const NOTHING: PlaceCounts = { received: 0, tested: 0, resistant: 0, someSurvivors: 0 };

function sum(a: PlaceCounts, b: PlaceCounts): PlaceCounts {
  return {
    received: a.received + b.received,
    tested: a.tested + b.tested,
    resistant: a.resistant + b.resistant,
    someSurvivors: a.someSurvivors + b.someSurvivors,
  };
}
