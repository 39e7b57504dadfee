import Flatbush from 'flatbush';
import type { Fips } from '@/lib/vocabulary/terms';
import { createCountyGrid } from './county-grid';
import { countyRings, type FlatRings, KM_PER_DEGREE, kmToRings, ringsContain } from './flat-rings';
import type { County } from './types';

export interface Locator {
  /** The county whose outline holds the point, or null outside all of them. */
  countyAt(lon: number, lat: number): County | null;
  /**
   * For many points at once the place in the list of the county that holds each, or −1.
   * @param indices written to; as long as `lons` and `lats`
   */
  locateInto(lons: Float64Array, lats: Float64Array, indices: Int32Array): void;
  /** True where no outline comes within 1 km of the point, for certain; false where one may. */
  isFarFromLines(lon: number, lat: number): boolean;
  /**
   * Kilometres from the point to the nearest piece of that county's outline, 0 or more inside and outside alike.
   * @throws RangeError for a FIPS code that the locator does not hold
   */
  kmToOutline(fips: Fips, lon: number, lat: number): number;
  /** Counties that hold the point or whose outline comes within `km` of it, ascending by FIPS. */
  countiesWithin(lon: number, lat: number, km: number): County[];
}

/**
 * Finds counties by point through a grid; the answer itself is exact for holes and parts. Distances: see `kmToRings`.
 *
 * @param counties outlines in degrees, any number, without overlap
 */
export function createLocator(counties: readonly County[]): Locator {
  if (counties.length === 0) throw new RangeError('A locator needs at least one county.');
  const rings = counties.map(countyRings);
  const placeOf = new Map(counties.map(({ fips }, place) => [fips, place]));
  const grid = createCountyGrid(rings);
  const index = boxIndex(rings);

  return {
    countyAt: (lon, lat) => counties[grid.indexAt(lon, lat)] ?? null,
    locateInto(lons, lats, indices) {
      for (let i = 0; i < lons.length; i++) indices[i] = grid.indexAt(lons[i]!, lats[i]!);
    },
    isFarFromLines: grid.isFarFromLines,
    kmToOutline(fips, lon, lat) {
      const place = placeOf.get(fips);
      if (place === undefined) throw new RangeError(`The locator holds no county ${fips}.`);
      return kmToRings(rings[place]!, lon, lat);
    },
    countiesWithin(lon, lat, km) {
      const latReach = km / KM_PER_DEGREE;
      const lonReach = latReach / Math.max(0.01, Math.cos((lat * Math.PI) / 180));
      return index
        .search(lon - lonReach, lat - latReach, lon + lonReach, lat + latReach)
        .filter((place) => ringsContain(rings[place]!, lon, lat) || kmToRings(rings[place]!, lon, lat) <= km)
        .map((place) => counties[place]!)
        .sort((a, b) => (a.fips < b.fips ? -1 : 1));
    },
  };
}

function boxIndex(rings: readonly FlatRings[]): Flatbush {
  const index = new Flatbush(rings.length);
  for (const { west, south, east, north } of rings) index.add(west, south, east, north);
  index.finish();
  return index;
}
