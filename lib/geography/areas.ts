import type { Eppo, Fips, PlaceKey, Season } from '@/lib/vocabulary/terms';
import type { AreaTable } from './types';

/** The areas of a species in the window that begins with a season; null where there are none. */
export function findAreas(tables: readonly AreaTable[], species: Eppo, first: Season): AreaTable | null {
  return tables.find((table) => table.species === species && table.first === first) ?? null;
}

/** Those of several counties: a county that is one by itself is no area to a reader. */
export function joinedAreas(table: AreaTable | null): Fips[][] {
  return table?.areas.filter(({ length }) => length > 1) ?? [];
}

/** For each county that is part of an area of several its key. */
export function areaOfCounty(table: AreaTable | null): Map<Fips, PlaceKey> {
  return new Map(
    joinedAreas(table).flatMap((counties) => counties.map((fips) => [fips, areaKey(counties)] as const)),
  );
}

/** The key of the place that these counties are together: of a single one its FIPS code. */
export function areaKey(counties: readonly Fips[]): PlaceKey {
  return counties.join('+');
}

/** Whether a key is that of an area of several counties. */
export function isAreaKey(place: PlaceKey): boolean {
  return place.includes('+');
}

/** The counties of an area, or the county itself. */
export function countiesOf(place: PlaceKey): Fips[] {
  return place.split('+');
}
