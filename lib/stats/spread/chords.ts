import { StatsError } from '../errors';
import { EARTH_RADIUS, onUnitSphere } from '../scan/great-circle';
import type { SpreadPoints } from './types';

/** Squares that grow with the distance of two places and cost no trigonometry, and the distance of a square. */
export interface Chords {
  square(i: number, j: number): number;
  /** In km (`great circle`) or the plane's unit. */
  distanceOf(square: number): number;
}

/**
 * @returns on the sphere squares of chords at radius 1; good to 1e-15 of the radius, so to some 0.1 mm
 * @throws StatsError `bad argument` for coordinates that are not finite, too few of them, a latitude beyond 90°
 */
export function chords({ x, y, metric }: SpreadPoints, places: number): Chords {
  for (let i = 0; i < Math.max(places, x.length, y.length); i += 1) {
    const isPoint = Number.isFinite(x[i]) && Number.isFinite(y[i]) && i < places;
    if (!isPoint || (metric === 'great circle' && Math.abs(y[i]!) > 90)) {
      throw new StatsError(
        'bad argument',
        `Place ${i} of ${places} lies at ${x[i]}, ${y[i]}; expected a point.`,
      );
    }
  }
  const at = new Float64Array(3 * places);
  for (let i = 0; i < places; i += 1) {
    at.set(metric === 'plane' ? [x[i]!, y[i]!] : onUnitSphere(x[i]!, y[i]!), 3 * i);
  }
  return {
    square(i, j) {
      const a = at[3 * i]! - at[3 * j]!;
      const b = at[3 * i + 1]! - at[3 * j + 1]!;
      const c = at[3 * i + 2]! - at[3 * j + 2]!;
      return a * a + b * b + c * c;
    },
    distanceOf(square) {
      const length = Math.sqrt(square);
      return metric === 'plane' ? length : 2 * EARTH_RADIUS * Math.asin(Math.min(1, length / 2));
    },
  };
}
