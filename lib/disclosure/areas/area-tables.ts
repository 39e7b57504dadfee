import type { AreaTable } from '@/lib/geography/types';
import type { Fips, PlaceKey } from '@/lib/vocabulary/terms';

/** The key of an area as a place: a single county stands for itself. */
export function areaKey(counties: readonly Fips[]): { placeKind: 'county' | 'area'; place: PlaceKey } {
  return { placeKind: counties.length === 1 ? 'county' : 'area', place: counties.join('+') };
}

/** For each county of a table its area as a place. */
export function areaOfCounty({ areas }: AreaTable): Map<Fips, ReturnType<typeof areaKey>> {
  return new Map(areas.flatMap((counties) => counties.map((fips) => [fips, areaKey(counties)] as const)));
}
