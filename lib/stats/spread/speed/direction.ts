import { chiSquareTail } from '../../dose-response/tails';
import { EARTH_RADIUS, RADIANS } from '../../scan/great-circle';
import type { SpreadPoints } from '../types';
import { frontFitter } from './fit-front';
import { FIRST_ORIGIN, type FrontFit, type Origin, SLOWNESS, type SpreadMap } from './types';

export interface FrontDirection {
  /** p of a front that moves alike in all directions. */
  p: number;
  /** Where it moves fastest: degrees clockwise from north, 0 … 360. */
  towards: number;
  /** Units of distance a season that way, and the opposite way; null where it has no end, or does not go there. */
  fastest: number | null;
  slowest: number | null;
}

/**
 * Does a front of one origin move faster one way than the other? Slowness changes with the cosine of the angle to one
 * direction: two parameters more, the origin estimated anew. On the sphere the map is laid flat about the front's origin,
 * at true distances from it.
 *
 * @param scatter the front's, by which the likelihood ratio is divided
 * @returns null where no fit was reached
 * @policy Its own test, without allowance for others. An axis (fast both ways) is not seen.
 * @cost about fifty passes over the tested cells
 */
export function directionOf(map: SpreadMap, fit: FrontFit, scatter: number): FrontDirection | null {
  const flat = { ...map, points: laidFlat(map.points, fit.origins[0]!) };
  const about = fit.theta.slice();
  if (map.points.metric === 'great circle') about.set([0, 0], FIRST_ORIGIN + 1);
  const even = frontFitter(fit.model, flat, 1).fit(about);
  const start = new Float64Array(about.length + 2);
  start.set(even.theta);
  const found = frontFitter(fit.model, flat, 1, true).fit(start);
  if (!found.converged) return null;
  const [alongX, alongY] = [found.theta.at(-2)!, found.theta.at(-1)!];
  const most = Math.hypot(alongX, alongY);
  const angle = (Math.atan2(-alongX, -alongY) * 180) / Math.PI;
  const speedAt = (slowness: number) => (slowness > 0 ? 1 / slowness : null);
  return {
    p: Math.max(Number.MIN_VALUE, chiSquareTail((2 * (even.value - found.value)) / scatter, 2)),
    towards: angle < 0 ? angle + 360 : angle,
    fastest: speedAt(found.theta[SLOWNESS]! - most),
    slowest: speedAt(found.theta[SLOWNESS]! + most),
  };
}

/** Azimuthal equidistant projection, in km. */
function laidFlat(points: SpreadPoints, { x: lon, y: lat }: Origin): SpreadPoints {
  if (points.metric === 'plane') return points;
  const ways = Array.from(points.x, (own, i) => {
    const [a, b, turn] = [lat * RADIANS, points.y[i]! * RADIANS, (own - lon) * RADIANS];
    const east = Math.cos(b) * Math.sin(turn);
    const north = Math.cos(a) * Math.sin(b) - Math.sin(a) * Math.cos(b) * Math.cos(turn);
    const sine = Math.hypot(east, north);
    const distance =
      EARTH_RADIUS * Math.atan2(sine, Math.sin(a) * Math.sin(b) + Math.cos(a) * Math.cos(b) * Math.cos(turn));
    return sine > 0 ? [(distance * east) / sine, (distance * north) / sine] : [0, 0];
  });
  return { x: ways.map(([x]) => x!), y: ways.map(([, y]) => y!), metric: 'plane' };
}
