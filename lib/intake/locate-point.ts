import type { County } from '@/lib/geography/types';
import type { PlaceContext } from './place-context';

export interface Point {
  lat: number;
  lon: number;
}

/** Generalised outlines move a county line by hundreds of metres: this far off is not yet elsewhere (own rule). */
export const TOLERANCE_KM = 1;

/** The county that holds a point, or null for a point in none and for one that is no place on Earth. */
export function countyAt({ locator }: PlaceContext, { lat, lon }: Point): County | null {
  return Math.abs(lat) <= 90 && Math.abs(lon) <= 180 ? locator.countyAt(lon, lat) : null;
}

/** Kilometres from a point to a county's outline; Infinity for one that is no place on Earth. */
export function kmTo({ locator }: PlaceContext, { fips }: County, { lat, lon }: Point): number {
  return Math.abs(lat) <= 90 && Math.abs(lon) <= 180
    ? locator.kmToOutline(fips, lon, lat)
    : Number.POSITIVE_INFINITY;
}

/** A point in no county that lies in one after latitude and longitude change places or the longitude its sign. */
export function repaired(
  context: PlaceContext,
  { lat, lon }: Point,
): { point: Point; county: County; flag: 'COORD_SIGN' | 'COORD_SWAPPED' } | null {
  const ways = [
    { point: { lat, lon: -lon }, flag: 'COORD_SIGN' },
    { point: { lat: lon, lon: lat }, flag: 'COORD_SWAPPED' },
    { point: { lat: lon, lon: -lat }, flag: 'COORD_SWAPPED' },
  ] as const;
  for (const { point, flag } of ways) {
    const county = countyAt(context, point);
    if (county) return { point, county, flag };
  }
  return null;
}
