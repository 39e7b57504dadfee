import { KM_PER_DEGREE } from '../flat-rings';
import type { Points } from './types';

/**
 * Squares of distances that can be compared with each other: from one place to all, by its index. The array returned
 * is used again by the next call. On the sphere they are squares of chords (unit radius), which grow with the great
 * circle and need no trigonometry for each pair.
 *
 * @throws RangeError where x and y differ in length, or a coordinate is no finite number
 */
export function squaredDistances({ x, y, metric }: Points): (place: number) => Float64Array {
  check(x, y);
  const axes = metric === 'plane' ? [Float64Array.from(x), Float64Array.from(y)] : onSphere(x, y);
  const squares = new Float64Array(x.length);
  return (place) => {
    squares.fill(0);
    for (const axis of axes) {
      const own = axis[place]!;
      for (let j = 0; j < squares.length; j += 1) squares[j]! += (axis[j]! - own) ** 2;
    }
    return squares;
  };
}

/** The square that belongs to a distance: in km on the sphere, in its unit on the plane. */
export function squareOf(distance: number, metric: Points['metric']): number {
  if (metric === 'plane') return distance ** 2;
  const halfAngle = (distance / KM_PER_DEGREE / 2) * RADIANS;
  return halfAngle >= Math.PI / 2 ? Number.POSITIVE_INFINITY : 4 * Math.sin(halfAngle) ** 2;
}

const RADIANS = Math.PI / 180;

function onSphere(lon: ArrayLike<number>, lat: ArrayLike<number>): Float64Array[] {
  const axis = (of: (lambda: number, phi: number) => number) =>
    Float64Array.from(lon, (degrees, i) => of(degrees * RADIANS, lat[i]! * RADIANS));
  return [
    axis((lambda, phi) => Math.cos(phi) * Math.cos(lambda)),
    axis((lambda, phi) => Math.cos(phi) * Math.sin(lambda)),
    axis((_, phi) => Math.sin(phi)),
  ];
}

function check(x: ArrayLike<number>, y: ArrayLike<number>): void {
  if (x.length !== y.length) throw new RangeError(`Got ${x.length} x and ${y.length} y; expected as many.`);
  for (let i = 0; i < x.length; i += 1) {
    if (!(Number.isFinite(x[i]) && Number.isFinite(y[i]))) {
      throw new RangeError(`Place ${i} lies at ${x[i]}, ${y[i]}; expected finite numbers.`);
    }
  }
}
