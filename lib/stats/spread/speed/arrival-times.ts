import { EARTH_RADIUS, onUnitSphere, RADIANS } from '../../scan/great-circle';
import type { SpreadPoints } from '../types';
import { FIRST_ORIGIN, PER_ORIGIN, SLOWNESS } from './types';

export interface ArrivalTimes {
  /** Length of θ. */
  size: number;
  /** Expected time of arrival at each point, as of the last `write`. */
  time: Float64Array;
  /** Computes the times of θ. */
  write(theta: Float64Array): void;
  /** Adds `weight` times the gradient of a point's time. */
  addGradient(point: number, weight: number, to: Float64Array): void;
}

/**
 * When a front reaches each point: start + slowness · distance, from the origin that reaches it first.
 *
 * @param isDirected of a plane and one origin: θ ends in two more slownesses, along x and along y, which are added for the
 *   part of the way that leads there
 * @policy Distances are great circles, or of the plane. Of several origins the times are joined smoothly, as
 *   −τ log Σ exp(−time / τ) with τ a tenth of a season, so that points between two origins make no kink that a fit could
 *   hang on: within 0.1 · log 2 seasons of the earlier time. The gradient at the origin itself, which has none, is 0.
 */
export function arrivalTimes(points: SpreadPoints, origins: number, isDirected = false): ArrivalTimes {
  const count = points.x.length;
  const alongX = FIRST_ORIGIN + PER_ORIGIN * origins;
  const time = new Float64Array(count);
  const ways = Array.from({ length: origins }, () => emptyWays(count));
  const measure = points.metric === 'plane' ? planeWays(points) : sphereWays(points);
  let slowness = 0;
  let direction: readonly [number, number] = [0, 0];
  return {
    size: alongX + (isDirected ? 2 : 0),
    time,
    write(theta) {
      slowness = theta[SLOWNESS]!;
      ways.forEach((way, origin) => {
        const at = FIRST_ORIGIN + PER_ORIGIN * origin;
        measure(theta[at + 1]!, theta[at + 2]!, way);
        for (let i = 0; i < count; i += 1) way.arrival[i] = theta[at]! + slowness * way.distance[i]!;
      });
      direction = isDirected ? [theta[alongX]!, theta[alongX + 1]!] : [0, 0];
      if (isDirected) addDirection(ways[0]!, direction);
      join(ways, time);
    },
    addGradient(i, weight, to) {
      for (let origin = 0; origin < origins; origin += 1) {
        const way = ways[origin]!;
        const own = weight * way.part[i]!;
        if (own === 0) continue;
        const at = FIRST_ORIGIN + PER_ORIGIN * origin;
        to[SLOWNESS]! += own * way.distance[i]!;
        to[at]! += own;
        to[at + 1]! += own * slowness * way.byX[i]!;
        to[at + 2]! += own * slowness * way.byY[i]!;
        if (!isDirected) continue;
        to[alongX]! -= own * way.distance[i]! * way.byX[i]!;
        to[alongX + 1]! -= own * way.distance[i]! * way.byY[i]!;
        to[at + 1]! -= own * direction[0]!;
        to[at + 2]! -= own * direction[1]!;
      }
    },
  };
}

/** Ways from one origin to all points. */
interface Ways {
  distance: Float64Array;
  /** How distances change as the origin moves along x and y. */
  byX: Float64Array;
  byY: Float64Array;
  arrival: Float64Array;
  /** Part of a point's time that comes from this origin: 1 where there is no other. */
  part: Float64Array;
}

type Measure = (x: number, y: number, to: Ways) => void;

function emptyWays(count: number): Ways {
  const zeros = () => new Float64Array(count);
  return { distance: zeros(), byX: zeros(), byY: zeros(), arrival: zeros(), part: zeros().fill(1) };
}

/** How far a point lies along x is its distance by the cosine of the angle, which is how the distance shrinks with x. */
function addDirection(
  { arrival, distance, byX, byY }: Ways,
  [alongX, alongY]: readonly [number, number],
): void {
  for (let i = 0; i < arrival.length; i += 1)
    arrival[i]! -= distance[i]! * (alongX * byX[i]! + alongY * byY[i]!);
}

function join(ways: readonly Ways[], time: Float64Array): void {
  const [only, ...others] = ways;
  if (others.length === 0) {
    time.set(only!.arrival);
    return;
  }
  for (let i = 0; i < time.length; i += 1) {
    let first = Number.POSITIVE_INFINITY;
    for (const { arrival } of ways) first = Math.min(first, arrival[i]!);
    let sum = 0;
    for (const { arrival } of ways) sum += Math.exp((first - arrival[i]!) / SMOOTH);
    for (const { arrival, part } of ways) part[i] = Math.exp((first - arrival[i]!) / SMOOTH) / sum;
    time[i] = first - SMOOTH * Math.log(sum);
  }
}

const SMOOTH = 0.1;

function planeWays({ x, y }: SpreadPoints): Measure {
  return (originX, originY, { distance, byX, byY }) => {
    for (let i = 0; i < x.length; i += 1) {
      const dx = originX - x[i]!;
      const dy = originY - y[i]!;
      const length = Math.sqrt(dx * dx + dy * dy);
      const inverse = length > 0 ? 1 / length : 0;
      distance[i] = length;
      byX[i] = dx * inverse;
      byY[i] = dy * inverse;
    }
  };
}

/** By unit vectors: their product is the cosine of the way, its derivatives those of the origin's vector. */
function sphereWays({ x, y }: SpreadPoints): Measure {
  const vectors = new Float64Array(3 * x.length);
  for (let i = 0; i < x.length; i += 1) vectors.set(onUnitSphere(x[i]!, y[i]!), 3 * i);
  return (lon, lat, to) => {
    const [ox, oy, oz] = onUnitSphere(lon, lat);
    const ring = Math.cos(lat * RADIANS);
    const [sinLon, cosLon, sinLat] = [Math.sin(lon * RADIANS), Math.cos(lon * RADIANS), oz];
    for (let i = 0; i < x.length; i += 1) {
      const [px, py, pz] = [vectors[3 * i]!, vectors[3 * i + 1]!, vectors[3 * i + 2]!];
      const [dx, dy, dz] = [ox - px, oy - py, oz - pz];
      // The cosine of a short way has lost its digits, the chord has not.
      const chord = Math.min(2, Math.sqrt(dx * dx + dy * dy + dz * dz));
      const sine = chord * Math.sqrt(1 - (chord * chord) / 4);
      const factor = sine > 0 ? (-EARTH_RADIUS * RADIANS) / sine : 0;
      to.distance[i] = 2 * EARTH_RADIUS * Math.asin(chord / 2);
      to.byX[i] = factor * ring * (py * cosLon - px * sinLon);
      to.byY[i] = factor * (pz * ring - sinLat * (px * cosLon + py * sinLon));
    }
  };
}
