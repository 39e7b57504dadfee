import { aggregate } from '@/lib/cube/aggregate';
import type { Cell, Fact } from '@/lib/cube/types';
import type { LadderTable } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import { areaOfCounty } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Fips, Period, PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';
import { countedFacts, partOf } from './counted-facts';

/**
 * The private cells of the tables that the gate asks for.
 *
 * @param facts with consent only; the caller decides
 * @param areas how counties are joined in each window
 * @returns every cell with at least one received population, table by table
 */
export function ladderCells(
  facts: readonly Fact[],
  tables: readonly LadderTable[],
  region: PlaceTree,
  areas: readonly AreaTable[],
): Cell[] {
  const placeOf = placesOf(region);
  return tables.flatMap((wanted) => {
    const entering = countedFacts(facts, wanted);
    if (wanted.joined) return joinedCells(entering, wanted, areas);
    const { placeKind, periods, byDesign, by } = wanted;
    // Seasons and windows overlap, so each kind is a pass of its own.
    const passes = [periods.filter(isSeason), periods.filter((period) => !isSeason(period))];
    return passes.flatMap((pass) =>
      aggregate(entering, {
        placeKind,
        placeOf: placeOf[placeKind],
        periodOf: (season) => pass.find(({ first, last }) => first <= season && season <= last) ?? null,
        byDesign,
        ...(by && { partOf: (fact: Fact) => partOf(by, fact) }),
      }),
    );
  });
}

/** Cells of areas (or of counties that are one by themselves): each species and window has its own. */
function joinedCells(
  facts: readonly Fact[],
  { placeKind, periods, assays, byDesign }: LadderTable,
  areas: readonly AreaTable[],
): Cell[] {
  return areas.flatMap((table) => {
    const window = periods.find(({ first }) => first === table.first);
    if (!window) return [];
    const areaOf = areaOfCounty(table);
    const alone = new Set(table.areas.filter(({ length }) => length === 1).flat());
    const own = facts.filter(
      ({ species, season, assay }) =>
        species === table.species &&
        window.first <= season &&
        season <= window.last &&
        assays.includes(assay),
    );
    const placeOf = (county: Fips) =>
      placeKind === 'area' ? (areaOf.get(county) ?? null) : alone.has(county) ? county : null;
    return aggregate(own, { placeKind, placeOf, periodOf: () => window, byDesign });
  });
}

function isSeason({ first, last }: Period): boolean {
  return first === last;
}

function placesOf(region: PlaceTree): Record<PlaceKind, (county: Fips) => PlaceKey | null> {
  const counties = new Map(region.counties.map((county) => [county.fips, county]));
  return {
    region: (fips) => (counties.has(fips) ? 'region' : null),
    state: (fips) => counties.get(fips)?.state ?? null,
    district: (fips) => counties.get(fips)?.district ?? null,
    area: () => null,
    county: (fips) => counties.get(fips)?.fips ?? null,
  };
}
