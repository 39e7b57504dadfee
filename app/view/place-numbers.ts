import type { ReleasedStatus } from '@/lib/disclosure/types';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import type { PlaceStatus } from '@/lib/vocabulary/terms';
import type { Place } from './places';
import { type CellIndex, releasedOver, statusOver, statusOverAll } from './released';
import type { View } from './view';

/** Counts of a place with its share and 95 % Wilson interval, 0–1. */
export interface Estimate {
  tested: number;
  resistant: number;
  share: number;
  low: number;
  high: number;
}

/** What a page says of a place. `estimate` is null wherever a number is not public or does not exist. */
export interface PlaceNumbers {
  place: Place;
  status: PlaceStatus;
  estimate: Estimate | null;
}

/** What is public of a place in a view's window; over all closed seasons that is its status alone. */
export function placeNumbers(
  cells: CellIndex,
  statuses: readonly ReleasedStatus[],
  window: View['window'],
  place: Place,
): PlaceNumbers {
  if (window === 'all') return { place, status: statusOverAll(statuses, cells, place), estimate: null };
  const released = releasedOver(cells, place, window);
  return {
    place,
    status: statusOver(released),
    estimate: released.kind === 'published' ? estimate(released.tested, released.resistant) : null,
  };
}

export function estimate(tested: number, resistant: number): Estimate {
  const { low, high } = wilsonInterval(resistant, tested);
  return { tested, resistant, share: resistant / tested, low, high };
}
