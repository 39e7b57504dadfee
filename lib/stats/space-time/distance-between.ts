import { checkLengths, StatsError } from '../errors';
import { greatCircle } from '../scan/great-circle';
import type { SpaceTimePoints } from './types';

/**
 * Distance between two points by their indices, in km (`great circle`) or the plane's unit.
 *
 * @throws StatsError `too few` for fewer than two points; `bad argument` where lengths differ or a number is not finite
 */
export function distanceBetween({ x, y, metric, time }: SpaceTimePoints): (i: number, j: number) => number {
  checkLengths(x, y, 'x and y');
  checkLengths(x, time, 'Points and times');
  if (x.length < 2) throw new StatsError('too few', `Got ${x.length} points; a pair needs two.`);
  for (let i = 0; i < x.length; i += 1) {
    if (!(Number.isFinite(x[i]!) && Number.isFinite(y[i]!) && Number.isFinite(time[i]!))) {
      throw new StatsError(
        'bad argument',
        `Point ${i} is ${x[i]}, ${y[i]} at time ${time[i]}; expected numbers.`,
      );
    }
  }
  if (metric === 'plane') return (i, j) => Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!);
  return (i, j) => greatCircle(x[i]!, y[i]!, x[j]!, y[j]!);
}
