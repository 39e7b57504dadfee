import { polygonContains } from '@/lib/geography/polygon-contains';
import type { County } from '@/lib/geography/types';
import type { Random } from './random';

/** A point in degrees, rounded to five decimals (about a metre) as sheets carry them. */
export interface Point {
  lon: number;
  lat: number;
}

/**
 * A point inside the county's outline, drawn from its bounding box until it falls inside; null after 80 misses
 * (long island chains), which a sheet shows as no coordinates.
 */
export function pointInCounty(county: County, random: Random): Point | null {
  const [west, south, east, north] = boxOf(county);
  for (let miss = 0; miss < 80; miss++) {
    const lon = round(west + random.uniform() * (east - west));
    const lat = round(south + random.uniform() * (north - south));
    if (polygonContains(county.geometry, lon, lat)) return { lon, lat };
  }
  return null;
}

const boxes = new WeakMap<County, [number, number, number, number]>();

function boxOf(county: County): [number, number, number, number] {
  const known = boxes.get(county);
  if (known) return known;
  const { geometry } = county;
  const positions = geometry.type === 'Polygon' ? geometry.coordinates.flat() : geometry.coordinates.flat(2);
  const lons = positions.map(([lon]) => lon!);
  const lats = positions.map(([, lat]) => lat!);
  const box: [number, number, number, number] = [
    Math.min(...lons),
    Math.min(...lats),
    Math.max(...lons),
    Math.max(...lats),
  ];
  boxes.set(county, box);
  return box;
}

function round(degrees: number): number {
  return Math.round(degrees * 1e5) / 1e5;
}
