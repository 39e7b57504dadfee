import { placeAt } from './circles';
import { greatCircle } from './great-circle';
import type { ScanPlan } from './types';

/** Distance from a centre to the place at `order[at]`, the farthest of that circle: km, or the plane's unit. */
export function windowRadius(
  { points: { x, y, metric }, circles: { places, order } }: Pick<ScanPlan, 'points' | 'circles'>,
  centre: number,
  at: number,
): number {
  const from = places[centre]!;
  const to = places[placeAt(order, at)]!;
  return metric === 'plane'
    ? Math.hypot(x[from]! - x[to]!, y[from]! - y[to]!)
    : greatCircle(x[from]!, y[from]!, x[to]!, y[to]!);
}
