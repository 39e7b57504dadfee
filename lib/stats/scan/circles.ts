import { StatsError } from '../errors';
import { EARTH_RADIUS, onUnitSphere } from './great-circle';
import type { Circles, ScanPoints } from './types';

export interface CircleLimits {
  shares: readonly number[];
  smallestPlaces: number;
  largestRadius: number;
}

/**
 * The circles of a scan: around each place, taking the nearest places in order.
 *
 * @param sizes what each place adds to a circle (all tested there); a place of size 0 is neither centre nor member
 * @policy Places equally far from the centre (to 5e-12 of the distance) join together. A circle may hold at most the
 *   largest of `shares` of all sizes; the smaller ones are marked inside it.
 * @throws StatsError `bad argument` for coordinates that are not finite, a latitude beyond 90°, more than 16,384 places
 * @source Kulldorff & Nagarwalla 1995, Statistics in Medicine 14:799–810
 * @cost O(places² · log places) time, 4 bytes for each place of each circle's order
 */
export function buildCircles(points: ScanPoints, sizes: Float64Array, limits: CircleLimits): Circles {
  checkPoints(points, sizes.length);
  const places = Int32Array.from(sizes.keys()).filter((place) => sizes[place]! > 0);
  if (places.length > MOST_PLACES) {
    throw new StatsError('bad argument', `Got ${places.length} places; a scan takes at most ${MOST_PLACES}.`);
  }
  const size = Float64Array.from(places, (place) => sizes[place]!);
  const total = size.reduce((sum, each) => sum + each, 0);
  const caps = limits.shares.map((share) => share * total * (1 + 1e-12));
  const ends = caps.map(() => new Int32Array(places.length));
  const offsets = new Int32Array(places.length + 1);
  const distances = nearestFirst(points, places);
  const rows: Int32Array[] = [];
  let count = 0;
  for (let centre = 0; centre < places.length; centre += 1) {
    const start = offsets[centre]!;
    const sorted = distances(centre);
    const row = circlesAround(sorted, size, caps, limits);
    rows.push(row.order);
    offsets[centre + 1] = start + row.order.length;
    row.ends.forEach((end, share) => {
      ends[share]![centre] = start + end;
    });
    count += row.count;
  }
  const order = new Int32Array(offsets[places.length]!);
  rows.forEach((row, centre) => {
    order.set(row, offsets[centre]);
  });
  return { places, order, offsets, ends, count };
}

/** The place of an entry of `order`, whether or not a circle ends with it. */
export function placeAt(order: Int32Array, at: number): number {
  return order[at]! < 0 ? ~order[at]! : order[at]!;
}

const MOST_PLACES = 16_384;
const SAME = 1 + 1e-11;

interface Sorted {
  order: Int32Array;
  /** Squared distance of each of `order`, ascending but for the last bits. */
  squared: Float64Array;
  /** Squared distance that a radius stands for. */
  squareOf: (radius: number) => number;
}

function checkPoints({ x, y, metric }: ScanPoints, places: number): void {
  if (x.length !== places || y.length !== places) {
    throw new StatsError('bad argument', `Got ${x.length} and ${y.length} coordinates for ${places} places.`);
  }
  for (let i = 0; i < places; i += 1) {
    const inside = metric === 'plane' || (Math.abs(x[i]!) <= 360 && Math.abs(y[i]!) <= 90);
    if (!(Number.isFinite(x[i]) && Number.isFinite(y[i]) && inside)) {
      throw new StatsError('bad argument', `Place ${i} lies at ${x[i]}, ${y[i]}; expected a point.`);
    }
  }
}

/**
 * For a centre all places by squared distance; on the sphere by the chord, which grows with the great circle. The
 * index takes the last 14 bits of the distance, so that one native sort sorts both: what differs by
 * less is joined anyway.
 */
function nearestFirst({ x, y, metric }: ScanPoints, places: Int32Array): (centre: number) => Sorted {
  const [u, v, w] = [0, 1, 2].map((axis) =>
    Float64Array.from(places, (place) => position(x[place]!, y[place]!, metric)[axis]!),
  ) as [Float64Array, Float64Array, Float64Array];
  const keys = new Float64Array(places.length);
  const bits = new BigUint64Array(keys.buffer); // in the order of the numbers, which are not negative; sorts faster
  const words = new Uint32Array(keys.buffer);
  const low = new Uint8Array(Uint32Array.of(1).buffer)[0] === 1 ? 0 : 1; // of the two words of a number
  const sorted: Sorted = {
    order: new Int32Array(places.length),
    squared: new Float64Array(places.length),
    squareOf: (radius) => (metric === 'plane' ? radius ** 2 : chord(radius) ** 2),
  };
  return (centre) => {
    for (let i = 0; i < places.length; i += 1) {
      keys[i] = (u[i]! - u[centre]!) ** 2 + (v[i]! - v[centre]!) ** 2 + (w[i]! - w[centre]!) ** 2;
      words[2 * i + low] = (words[2 * i + low]! & ~(MOST_PLACES - 1)) | i;
    }
    bits.sort();
    for (let i = 0; i < places.length; i += 1) {
      sorted.order[i] = words[2 * i + low]! & (MOST_PLACES - 1);
      words[2 * i + low]! &= ~(MOST_PLACES - 1);
      sorted.squared[i] = keys[i]!;
    }
    return sorted;
  };
}

function position(x: number, y: number, metric: ScanPoints['metric']): [number, number, number] {
  return metric === 'plane' ? [x, y, 0] : onUnitSphere(x, y);
}

/** Chord, in Earth radii, of a great circle in km; nothing is farther than half around. */
function chord(km: number): number {
  return 2 * Math.sin(Math.min(Math.PI, km / EARTH_RADIUS) / 2);
}

function circlesAround(
  { order, squared, squareOf }: Sorted,
  size: Float64Array,
  caps: readonly number[],
  { smallestPlaces, largestRadius }: CircleLimits,
): { order: Int32Array; ends: number[]; count: number } {
  const cap = Math.max(...caps);
  const farthest = squareOf(largestRadius) * SAME;
  const ends = caps.map(() => 0);
  const row = new Int32Array(order.length);
  let inside = 0;
  let end = 0;
  let count = 0;
  for (let at = 0; at < order.length; ) {
    let next = at;
    do {
      inside += size[order[next]!]!;
      row[next] = ~order[next]!;
      next += 1;
    } while (next < order.length && squared[next]! <= squared[next - 1]! * SAME);
    if (inside > cap || squared[next - 1]! > farthest) break;
    if (next >= smallestPlaces) {
      row[next - 1] = order[next - 1]!;
      count += 1;
      end = next;
      caps.forEach((each, share) => {
        if (inside <= each) ends[share] = next;
      });
    }
    at = next;
  }
  return { order: row.slice(0, end), ends, count };
}
