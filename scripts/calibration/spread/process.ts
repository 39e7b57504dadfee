import { answerOrders } from '../in-processes';
import { NEARNESS_WAYS, type NearnessRow, nearnessRuns } from './nearness-runs';
import { ground as groundOf, type Testing } from './screening';
import { type SpeedRow, speedRuns, WAYS } from './speed-runs';

/** A line of the document. Ways are named: a function cannot be handed to a process. */
export type Order =
  | { kind: 'speed'; way: string; runs: number; byDistrict: number; seed: number }
  | { kind: 'nearness'; way: string; testing: Testing; runs: number; seed: number };
export type Answer = SpeedRow[] | NearnessRow;

answerOrders<Order, Answer>((order) => {
  const ground = groundOf(order.seed);
  if (order.kind === 'speed') {
    const way = WAYS.find(({ name }) => name === order.way)!;
    return speedRuns(ground, way, order, order.seed);
  }
  const way = NEARNESS_WAYS.find(({ name }) => name === order.way)!;
  return nearnessRuns(ground, way, order.testing, order);
});
