import type { MultiPolygon, Polygon, Position } from 'geojson';

/**
 * Whether a point lies in an outline: inside a part and in none of that part's holes (even–odd rule over all rings).
 *
 * Edges are half open, and an edge is read in the same direction whichever polygon it bounds, so a point on a line
 * that two counties share bit by bit belongs to exactly one of them.
 *
 * @param lon degrees, in the outline's own plane
 * @param lat degrees
 * Source: crossing-number test, Shimrat 1962 (Commun. ACM 5(8):434) with the half-open correction; from memory.
 */
export function polygonContains(outline: Polygon | MultiPolygon, lon: number, lat: number): boolean {
  const parts = outline.type === 'Polygon' ? [outline.coordinates] : outline.coordinates;
  let inside = false;
  for (const rings of parts) for (const ring of rings) if (ringCrossesOddly(ring, lon, lat)) inside = !inside;
  return inside;
}

function ringCrossesOddly(ring: Position[], lon: number, lat: number): boolean {
  let odd = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const a = ring[i]!;
    const b = ring[j]!;
    if (a[1]! > lat === b[1]! > lat) continue;
    const [low, high] = a[1]! < b[1]! ? [a, b] : [b, a];
    if (lon < low[0]! + ((high[0]! - low[0]!) * (lat - low[1]!)) / (high[1]! - low[1]!)) odd = !odd;
  }
  return odd;
}
