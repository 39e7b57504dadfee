import { centerOfMass } from '@turf/turf';
import type { MultiPolygon, Polygon, Position } from 'geojson';
import { polygonContains } from './polygon-contains';

/**
 * A point for labels and distances that is certainly inside the outline: the centre of mass where that lies inside,
 * else the middle of the widest inner stretch among a few horizontal cuts of the largest part.
 *
 * @returns longitude and latitude in degrees. An outline that simplification collapsed to a line has no inside (Falls
 * Church, Virginia, in us-atlas 3.0.1): then the middle of its first edge stands for it.
 */
export function representativePoint(outline: Polygon | MultiPolygon): { lon: number; lat: number } {
  const [lon, lat] = centerOfMass(outline).geometry.coordinates as [number, number];
  if (polygonContains(outline, lon, lat)) return { lon, lat };
  return widestCut(outline);
}

const CUTS = 15;

function widestCut(outline: Polygon | MultiPolygon): { lon: number; lat: number } {
  const rings = outline.type === 'Polygon' ? outline.coordinates : outline.coordinates.flat();
  const latitudes = rings.flat().map((position) => position[1]!);
  const south = Math.min(...latitudes);
  const north = Math.max(...latitudes);
  let best = { lon: Number.NaN, lat: Number.NaN, width: 0 };
  for (let cut = 1; cut < CUTS; cut++) {
    const lat = south + ((north - south) * cut) / CUTS;
    const crossings = rings.flatMap((ring) => crossingsAt(ring, lat)).sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      const width = crossings[i + 1]! - crossings[i]!;
      if (width > best.width) best = { lon: (crossings[i]! + crossings[i + 1]!) / 2, lat, width };
    }
  }
  if (best.width > 0) return { lon: best.lon, lat: best.lat };
  const [a, b] = rings[0] as [[number, number], [number, number]];
  return { lon: (a[0] + b[0]) / 2, lat: (a[1] + b[1]) / 2 };
}

/** Longitudes at which the ring crosses the latitude, by the same half-open rule as `polygonContains`. */
function crossingsAt(ring: Position[], lat: number): number[] {
  const crossings: number[] = [];
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [x1, y1] = ring[i] as [number, number];
    const [x2, y2] = ring[j] as [number, number];
    if (y1 > lat !== y2 > lat) crossings.push(((x2 - x1) * (lat - y1)) / (y2 - y1) + x1);
  }
  return crossings;
}
