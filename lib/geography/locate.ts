import Flatbush from 'flatbush';
import type { Position } from 'geojson';
import type { Fips } from '@/lib/vocabulary/terms';
import { polygonContains } from './polygon-contains';
import type { County } from './types';

export interface Locator {
  /** The county whose outline holds the point, or null outside all of them. */
  countyAt(lon: number, lat: number): County | null;
  /**
   * Kilometres from the point to the nearest piece of that county's outline, 0 or more inside and outside alike.
   * @throws RangeError for a FIPS code that the locator does not hold
   */
  kmToOutline(fips: Fips, lon: number, lat: number): number;
  /** Counties that hold the point or whose outline comes within `km` of it, ascending by FIPS. */
  countiesWithin(lon: number, lat: number, km: number): County[];
}

/** Kilometres for one degree of latitude on a sphere of the mean Earth radius (6371.0088 km, IUGG). */
const KM_PER_DEGREE = (6371.0088 * Math.PI) / 180;

/**
 * Finds counties by point through an index of their bounding boxes; the answer itself is exact for holes and parts.
 * Distances take a degree of longitude at the latitude half way: right to 0.1 % and 20 m up to 50 km, which is what questions ask
 * for. Outlines are straight in degrees, as they are for `countyAt`.
 *
 * @param counties outlines in degrees, any number, without overlap
 */
export function createLocator(counties: readonly County[]): Locator {
  if (counties.length === 0) throw new RangeError('A locator needs at least one county.');
  const rings = new Map(counties.map((county) => [county.fips, ringsOf(county)]));
  const index = new Flatbush(counties.length);
  for (const county of counties) index.add(...boundingBox(rings.get(county.fips)!));
  index.finish();

  const candidates = (lon: number, lat: number, lonReach: number, latReach: number) =>
    index
      .search(lon - lonReach, lat - latReach, lon + lonReach, lat + latReach)
      .sort((a, b) => a - b)
      .map((i) => counties[i]!);

  const kmToOutline = (fips: Fips, lon: number, lat: number) => {
    const outline = rings.get(fips);
    if (!outline) throw new RangeError(`The locator holds no county ${fips}.`);
    return Math.min(...outline.map((ring) => kmToRing(ring, lon, lat)));
  };

  return {
    countyAt: (lon, lat) =>
      candidates(lon, lat, 0, 0).find((county) => polygonContains(county.geometry, lon, lat)) ?? null,
    kmToOutline,
    countiesWithin(lon, lat, km) {
      const latReach = km / KM_PER_DEGREE;
      const lonReach = latReach / Math.max(0.01, Math.cos((lat * Math.PI) / 180));
      return candidates(lon, lat, lonReach, latReach)
        .filter(
          (county) => polygonContains(county.geometry, lon, lat) || kmToOutline(county.fips, lon, lat) <= km,
        )
        .sort((a, b) => (a.fips < b.fips ? -1 : 1));
    },
  };
}

function ringsOf({ geometry }: County): Position[][] {
  return geometry.type === 'Polygon' ? geometry.coordinates : geometry.coordinates.flat();
}

function boundingBox(rings: Position[][]): [number, number, number, number] {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const ring of rings) {
    for (const [lon, lat] of ring as [number, number][]) {
      west = Math.min(west, lon);
      east = Math.max(east, lon);
      south = Math.min(south, lat);
      north = Math.max(north, lat);
    }
  }
  return [west, south, east, north];
}

function kmToRing(ring: Position[], lon: number, lat: number): number {
  let [ax, ay] = kmFrom(lon, lat, ring[0]!);
  let best = Math.hypot(ax, ay);
  for (let i = 1; i < ring.length; i++) {
    const [bx, by] = kmFrom(lon, lat, ring[i]!);
    const [dx, dy] = [bx - ax, by - ay];
    const length2 = dx * dx + dy * dy;
    const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / length2));
    best = Math.min(best, Math.hypot(ax + t * dx, ay + t * dy));
    [ax, ay] = [bx, by];
  }
  return best;
}

/** East and north of a point in km; a degree of longitude is as long as at the latitude half way. */
function kmFrom(lon: number, lat: number, [x, y]: Position): [number, number] {
  const halfWay = ((lat + y!) / 2) * (Math.PI / 180);
  return [(x! - lon) * KM_PER_DEGREE * Math.cos(halfWay), (y! - lat) * KM_PER_DEGREE];
}
