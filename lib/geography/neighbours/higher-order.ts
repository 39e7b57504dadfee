import { summarise } from './summarise';
import type { NeighbourGraph } from './types';

/**
 * Neighbours of neighbours: the places that are reached in so many steps and not in fewer.
 *
 * @param order 1 or more steps
 * @param upTo `true` for all places that are reached in at most so many steps. Default false.
 * @policy A place from which no other is so many steps away is an island. Links are followed the way they point.
 * @throws RangeError for another order
 * @cost O(places · places reached)
 */
export function higherOrder(
  { neighbours }: Pick<NeighbourGraph, 'neighbours'>,
  order: number,
  { upTo = false }: { upTo?: boolean } = {},
): NeighbourGraph {
  if (!(Number.isInteger(order) && order >= 1)) {
    throw new RangeError(`Got order ${order}; expected a whole number from 1.`);
  }
  return summarise(neighbours.map((_, i) => reached(i)));

  function reached(from: number): number[] {
    const seen = new Set([from]);
    const all: number[] = [];
    let ring = [from];
    for (let step = 0; step < order; step += 1) {
      const next: number[] = [];
      for (const place of ring) {
        for (const j of neighbours[place]!) {
          if (seen.has(j)) continue;
          seen.add(j);
          next.push(j);
        }
      }
      all.push(...next);
      ring = next;
    }
    return upTo ? all : ring;
  }
}
