import type { MultiPolygon, Polygon } from 'geojson';

/** A closed outline on an integer grid: x0, y0, x1, y1 …; the first point is not repeated. */
export type Ring = readonly number[];

/**
 * Rings of a polygon on an integer grid. Repeated points are dropped; points on a straight line stay, so that two
 * neighbours keep the same points along their common line. Rings that collapse below three points vanish.
 *
 * @param toGrid longitude and latitude in degrees to grid coordinates (rounded here)
 */
export function gridRings(
  geometry: Polygon | MultiPolygon,
  toGrid: (lon: number, lat: number) => readonly [number, number],
): Ring[] {
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  return polygons.flat().flatMap((positions) => {
    const ring: number[] = [];
    for (const [lon, lat] of positions) {
      const [x, y] = toGrid(lon!, lat!).map(Math.round) as [number, number];
      if (ring.at(-2) !== x || ring.at(-1) !== y) ring.push(x, y);
    }
    while (ring.length > 2 && ring[0] === ring.at(-2) && ring[1] === ring.at(-1)) ring.length -= 2;
    return ring.length >= 6 ? [ring] : [];
  });
}

/**
 * Outline of several areas together: every edge that two members walk in opposite directions lies inside and is left
 * out; what stays is chained into rings. Needs rings whose common lines share their points (see `gridRings`) and
 * whose exteriors turn the same way. Linear in the number of points.
 */
export function dissolve(members: Iterable<Ring>): Ring[] {
  const next = new Map<number, number[]>();
  for (const ring of members) {
    for (let i = 0; i < ring.length; i += 2) {
      const from = pointId(ring[i]!, ring[i + 1]!);
      const to = pointId(ring[(i + 2) % ring.length]!, ring[(i + 3) % ring.length]!);
      const back = next.get(to);
      const found = back ? back.indexOf(from) : -1;
      if (found >= 0) back!.splice(found, 1);
      else append(next, from, to);
    }
  }
  return chain(next);
}

/** The same ring without points that lie on a straight line between their neighbours. */
export function straighten(ring: Ring): Ring {
  const kept: number[] = [];
  const n = ring.length;
  for (let i = 0; i < n; i += 2) {
    const [x, y] = [ring[i]!, ring[i + 1]!];
    const [px, py] = [ring[(i + n - 2) % n]!, ring[(i + n - 1) % n]!];
    const [qx, qy] = [ring[(i + 2) % n]!, ring[(i + 3) % n]!];
    if ((x - px) * (qy - y) !== (y - py) * (qx - x)) kept.push(x, y);
  }
  return kept;
}

/** SVG path of closed rings, in relative steps. */
export function ringPath(rings: readonly Ring[]): string {
  return rings
    .map(straighten)
    .filter((ring) => ring.length >= 6)
    .map((ring) => {
      let path = `M${ring[0]},${ring[1]}l`;
      for (let i = 2; i < ring.length; i += 2) {
        const [dx, dy] = [ring[i]! - ring[i - 2]!, ring[i + 1]! - ring[i - 1]!];
        path += `${i > 2 && dx >= 0 ? ' ' : ''}${dx}${dy >= 0 ? ' ' : ''}${dy}`;
      }
      return `${path}z`;
    })
    .join('');
}

const BASE = 2 ** 22;
const SHIFT = 2 ** 21;

function pointId(x: number, y: number): number {
  return (y + SHIFT) * BASE + (x + SHIFT);
}

function append(next: Map<number, number[]>, from: number, to: number): void {
  const list = next.get(from);
  if (list) list.push(to);
  else next.set(from, [to]);
}

function chain(next: Map<number, number[]>): Ring[] {
  const rings: Ring[] = [];
  for (const [start, list] of next) {
    while (list.length > 0) {
      const ring: number[] = [];
      let at = start;
      do {
        ring.push((at % BASE) - SHIFT, Math.floor(at / BASE) - SHIFT);
        at = next.get(at)!.pop()!;
      } while (at !== start);
      rings.push(ring);
    }
  }
  return rings;
}
