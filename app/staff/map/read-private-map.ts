import type { StaffDatabase } from '@/db/clients/staff';
import { listAnalyses, readParts } from '@/db/repositories/analyses';
import { testsOfPair } from '@/db/repositories/facts';
import { questionsByCounty } from '@/db/repositories/questions-by-county';
import { aggregate } from '@/lib/cube/aggregate';
import { factsOf } from '@/lib/cube/facts';
import type { Cell, Fact } from '@/lib/cube/types';
import type { SpreadAnalysis } from '@/lib/findings/spread/types';
import type { Clustering } from '@/lib/findings/types';
import type { Region } from '@/lib/geography/types';
import type { Period, Season } from '@/lib/vocabulary/terms';
import type { Grain, MapView } from './map-view';

/** Everything that the private map shows. */
export interface PrivateMap {
  view: MapView;
  /** By place of the grain, in the period. */
  cells: Map<string, Cell>;
  /** First season with a resistant population, up to the end of the period. */
  since: Map<string, Season>;
  /** Facts of the pair as they were filtered, of all seasons. */
  facts: Fact[];
  /** Facts of the pair, of any design, assay, crop and funder: what choices are made of. */
  allFacts: Fact[];
  /** Of the last analysis for this period and design; null where it has none or another layer is shown. */
  clustering: Clustering | null;
  spread: SpreadAnalysis | null;
  /** Rows that wait, by county. */
  questions: Map<string, number>;
}

/** Reads what a view shows. */
export async function readPrivateMap(db: StaffDatabase, view: MapView, region: Region): Promise<PrivateMap> {
  const allFacts = factsOf(await testsOfPair(db, view.pair));
  const facts = allFacts.filter(
    ({ assay, design, crop, funder }) =>
      assay === view.assay &&
      (view.design === null || design === view.design) &&
      (view.crop === null || crop === view.crop) &&
      (view.funder === null || funder === view.funder),
  );
  const [latest] = await listAnalyses(db);
  const analysed = latest
    ? {
        maps: view.layer === 'cluster' ? await readParts(db, latest.id, { kind: 'map', ...view.pair }) : [],
        spreads: await readParts(db, latest.id, { kind: 'spread', ...view.pair }),
      }
    : { maps: [], spreads: [] };
  const placeOf = placesOf(region, view.by);
  const clustering = analysed.maps.find(
    ({ period, design }) =>
      period.first === view.period.first && period.last === view.period.last && design === view.design,
  );
  return {
    ...{ view, facts, allFacts },
    cells: new Map(cellsOver(facts, view.period, placeOf, view.by).map((cell) => [cell.place, cell])),
    since: sinceWhen(facts, view.period.last, placeOf),
    clustering: clustering?.clustering ?? null,
    spread: analysed.spreads.find(({ design }) => design === null) ?? null,
    questions: view.layer === 'questions' ? await questionsByCounty(db) : new Map(),
  };
}

/** The cells of one period. */
export function cellsOver(
  facts: readonly Fact[],
  period: Period,
  placeOf: (county: string) => string | null,
  placeKind: Grain | 'region',
): Cell[] {
  return aggregate(facts, {
    ...{ placeKind, placeOf, byDesign: false },
    periodOf: (season) => (period.first <= season && season <= period.last ? period : null),
  });
}

/** The place of a grain that a county belongs to. */
export function placesOf(region: Region, grain: Grain): (county: string) => string | null {
  const counties = new Map(region.counties.map((county) => [county.fips, county]));
  return (fips) => {
    const county = counties.get(fips);
    if (!county) return null;
    return grain === 'county' ? fips : grain === 'district' ? (county.district ?? null) : county.state;
  };
}

function sinceWhen(
  facts: readonly Fact[],
  last: Season,
  placeOf: (county: string) => string | null,
): Map<string, Season> {
  const since = new Map<string, Season>();
  for (const { county, season, result } of facts) {
    const place = placeOf(county);
    if (place === null || result !== 'resistant' || season > last) continue;
    since.set(place, Math.min(season, since.get(place) ?? season));
  }
  return since;
}
