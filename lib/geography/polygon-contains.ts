import type { MultiPolygon, Polygon } from 'geojson';
import { countyRings, type FlatRings, ringsContain } from './flat-rings';

/**
 * Whether a point lies in an outline, by the rule of `ringsContain`.
 *
 * @param lon degrees, in the outline's own plane
 * @param lat degrees
 */
export function polygonContains(outline: Polygon | MultiPolygon, lon: number, lat: number): boolean {
  let rings = FLATTENED.get(outline);
  if (!rings) {
    rings = countyRings({ geometry: outline });
    FLATTENED.set(outline, rings);
  }
  return ringsContain(rings, lon, lat);
}

const FLATTENED = new WeakMap<Polygon | MultiPolygon, FlatRings>();
