import { regionOf } from '@/app/region';
import type { StaffDatabase } from '@/db/clients/staff';
import { listReleases } from '@/db/repositories/published';
import type { District } from '@/lib/geography/types';
import { type PrivateBriefingScope, privateBriefingScope } from '@/lib/jobs/private-briefing';
import { programmeOf } from '@/lib/jobs/programme-of';
import type { Pair, Period } from '@/lib/vocabulary/terms';
import { type Order, orderedRelease } from './read-order';

/** What a briefing of a source can be about. */
export interface Scope {
  /** Numbers of the releases that stand, the newest first, and the one that is meant; null for exact counts. */
  releases: { all: number[]; chosen: number } | null;
  pairs: readonly Pair[];
  leading: Pair;
  /** The one that is meant where none is named comes last. */
  windows: readonly Period[];
  districts: readonly District[];
  /** None where numbers are not told by them. */
  crops: readonly string[];
  funders: readonly string[];
  /** Of exact counts: what their numbers are then read with. */
  store: PrivateBriefingScope | null;
}

/** What an order can choose from; null where there is nothing yet. */
export async function readScope(db: StaffDatabase, order: Order): Promise<Scope | null> {
  if (order.source === 'private') {
    const store = await privateBriefingScope(db, await programmeOf(db));
    const { leading, pairs, windows, crops, funders, region } = store;
    return (
      leading && {
        releases: null,
        pairs,
        leading,
        windows,
        districts: region.districts,
        crops,
        funders,
        store,
      }
    );
  }
  const head = await orderedRelease(db, order);
  const leading = head?.leading ?? head?.pairs[0];
  if (!head || !leading) return null;
  const standing = (await listReleases(db)).filter(({ withdrawn }) => withdrawn === null);
  return {
    ...{ pairs: head.pairs, leading, windows: head.windows, districts: regionOf(head).districts },
    ...{ crops: [], funders: [], store: null },
    releases: { all: standing.map(({ number }) => number), chosen: head.number },
  };
}
