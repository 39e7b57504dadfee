import type { County } from './types';

/** All rings of an outline in one array, for kernels. */
export interface FlatRings {
  /** Longitude, latitude, longitude … of the rings one after another; each ends as it begins. */
  xy: Float64Array;
  /** Where each ring begins in `xy`, and the length of `xy`. */
  starts: Int32Array;
  west: number;
  south: number;
  east: number;
  north: number;
}

export function countyRings({ geometry }: Pick<County, 'geometry'>): FlatRings {
  const rings = geometry.type === 'Polygon' ? geometry.coordinates : geometry.coordinates.flat();
  const xy = Float64Array.from(rings.flat(2));
  const starts = new Int32Array(rings.length + 1);
  rings.forEach((ring, i) => {
    starts[i + 1] = starts[i]! + 2 * ring.length;
  });
  const box = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
  for (let i = 0; i < xy.length; i += 2) {
    box.west = Math.min(box.west, xy[i]!);
    box.east = Math.max(box.east, xy[i]!);
    box.south = Math.min(box.south, xy[i + 1]!);
    box.north = Math.max(box.north, xy[i + 1]!);
  }
  return { xy, starts, ...box };
}

/**
 * Whether a point lies in an outline: inside a part and in none of that part's holes (even–odd rule over all rings).
 *
 * Edges are half open, and an edge is read in the same direction whichever polygon it bounds, so a point on a line
 * that two counties share bit by bit belongs to exactly one of them.
 *
 * Source: crossing-number test, Shimrat 1962 (Commun. ACM 5(8):434) with the half-open correction; from memory.
 */
export function ringsContain(
  { xy, starts, west, south, east, north }: FlatRings,
  lon: number,
  lat: number,
): boolean {
  if (lon < west || lon > east || lat < south || lat > north) return false;
  let odd = false;
  for (let ring = 0; ring + 1 < starts.length; ring++) {
    const end = starts[ring + 1]!;
    let [ax, ay] = [xy[end - 2]!, xy[end - 1]!];
    for (let i = starts[ring]!; i < end; i += 2) {
      const bx = xy[i]!;
      const by = xy[i + 1]!;
      if (by > lat !== ay > lat) {
        const crosses =
          ay < by
            ? lon < ax + ((bx - ax) * (lat - ay)) / (by - ay)
            : lon < bx + ((ax - bx) * (lat - by)) / (ay - by);
        if (crosses) odd = !odd;
      }
      ax = bx;
      ay = by;
    }
  }
  return odd;
}

/** Kilometres for one degree of latitude on a sphere of the mean Earth radius (6371.0088 km, IUGG). */
export const KM_PER_DEGREE = (6371.0088 * Math.PI) / 180;

/**
 * Kilometres from a point to the nearest piece of an outline, 0 or more inside and outside alike. A degree of longitude is
 * as long as at the latitude half way: right to 0.1 % and 20 m up to 50 km. Outlines are straight in degrees.
 */
export function kmToRings({ xy, starts }: FlatRings, lon: number, lat: number): number {
  let best = Infinity;
  for (let ring = 0; ring + 1 < starts.length; ring++) {
    const end = starts[ring + 1]!;
    let ax = eastOf(xy[starts[ring]!]!, xy[starts[ring]! + 1]!, lon, lat);
    let ay = (xy[starts[ring]! + 1]! - lat) * KM_PER_DEGREE;
    for (let i = starts[ring]! + 2; i < end; i += 2) {
      const bx = eastOf(xy[i]!, xy[i + 1]!, lon, lat);
      const by = (xy[i + 1]! - lat) * KM_PER_DEGREE;
      const [dx, dy] = [bx - ax, by - ay];
      const length2 = dx * dx + dy * dy;
      const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / length2));
      const [x, y] = [ax + t * dx, ay + t * dy];
      best = Math.min(best, x * x + y * y);
      ax = bx;
      ay = by;
    }
  }
  return Math.sqrt(best);
}

function eastOf(x: number, y: number, lon: number, lat: number): number {
  return (x - lon) * KM_PER_DEGREE * Math.cos(((lat + y) / 2) * (Math.PI / 180));
}
