import { aggregate } from '@/lib/cube/aggregate';
import type { Cell, Fact } from '@/lib/cube/types';
import type { LadderTable } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import type { Fips, Period, PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';

/**
 * The private cells of the tables that the gate asks for.
 *
 * @param facts with consent only; the caller decides
 * @returns every cell with at least one received population, table by table
 */
export function ladderCells(
  facts: readonly Fact[],
  tables: readonly LadderTable[],
  region: PlaceTree,
): Cell[] {
  const placeOf = placesOf(region);
  return tables.flatMap(({ placeKind, periods, assays, byDesign }) => {
    const entering = facts.filter((fact) => assays.includes(fact.assay));
    // Seasons and windows overlap, so each kind is a pass of its own.
    const passes = [periods.filter(isSeason), periods.filter((period) => !isSeason(period))];
    return passes.flatMap((pass) =>
      aggregate(entering, {
        placeKind,
        placeOf: placeOf[placeKind],
        periodOf: (season) => pass.find(({ first, last }) => first <= season && season <= last) ?? null,
        byDesign,
      }),
    );
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
    county: (fips) => counties.get(fips)?.fips ?? null,
  };
}
