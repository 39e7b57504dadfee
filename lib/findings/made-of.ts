import type { PlaceKey } from '@/lib/vocabulary/terms';
import type { MadeOf } from './types';

/** What one operation sent from a place. Private. */
export interface SenderCounts {
  operation: string;
  tested: number;
  resistant: number;
}

/**
 * How many operations the resistant populations of some places came from: a cluster may be one sender.
 * @returns null where senders are not given, or nothing resistant was sent from there
 */
export function madeOf(
  places: readonly PlaceKey[],
  senders: ReadonlyMap<PlaceKey, readonly SenderCounts[]> | undefined,
): MadeOf | null {
  const sent = new Map<string, number>();
  for (const place of places)
    for (const { operation, resistant } of senders?.get(place) ?? [])
      if (resistant > 0) sent.set(operation, (sent.get(operation) ?? 0) + resistant);
  if (sent.size === 0) return null;
  const counts = [...sent.values()];
  return {
    resistant: counts.reduce((sum, count) => sum + count, 0),
    operations: sent.size,
    largestOperation: Math.max(...counts),
  };
}
