import { regionOf } from '@/app/region';
import { readBriefing } from '@/app/view/read-briefing';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { latestRelease, releaseByNumber } from '@/db/repositories/published';
import { type BriefingWish, parseBriefing, wishOf } from '@/lib/briefing/choose';
import type { BriefingNumbers } from '@/lib/briefing/types';
import { type PrivateBriefingScope, readPrivateBriefing } from '@/lib/jobs/private-briefing';
import { programmeOf } from '@/lib/jobs/programme-of';
import { today } from '@/lib/jobs/today';
import type { ReleaseHead } from '@/lib/release/types';

/** From which numbers a briefing is made: exact counts, for the staff, or those that a release shows. */
export const BRIEFING_SOURCES = ['private', 'release'] as const;
export type BriefingSource = (typeof BRIEFING_SOURCES)[number];

/** What a form of the page asks for, an empty choice being none. */
export interface Order {
  source: BriefingSource;
  /** Number of the release; null: the newest that stands. */
  release: string | null;
  wish: BriefingWish;
  /** Of exact counts alone. */
  crop: string | null;
  funder: string | null;
}

export function orderOf(parameters: URLSearchParams): Order {
  const filled = new URLSearchParams([...parameters].filter(([, value]) => value !== ''));
  return {
    source: filled.get('source') === 'release' ? 'release' : 'private',
    release: filled.get('release'),
    wish: wishOf(filled),
    ...{ crop: filled.get('crop'), funder: filled.get('funder') },
  };
}

/**
 * @param scope of exact counts, where it was read already
 * @throws UserError where the store or the release does not have what is asked for
 */
export async function numbersOf(
  db: StaffDatabase,
  order: Order,
  scope: PrivateBriefingScope | null = null,
): Promise<BriefingNumbers> {
  const { source, wish, crop, funder } = order;
  if (source === 'release') return releasedNumbers(db, order);
  const programme = await programmeOf(db);
  return found(await readPrivateBriefing(db, { programme, wish, crop, funder, date: today(), scope }));
}

/**
 * The release that an order means; null where nothing is released yet.
 *
 * @throws UserError where there is no release of its number that stands
 */
export async function orderedRelease(
  db: StaffDatabase,
  { release }: Pick<Order, 'release'>,
): Promise<ReleaseHead | null> {
  if (release === null) return latestRelease(db);
  const head = /^[1-9]\d{0,8}$/.test(release) ? await releaseByNumber(db, Number(release)) : null;
  if (!head) throw new UserError(`There is no release “${release.slice(0, 12)}” that stands.`, CHOOSE);
  return head;
}

/** What anybody may read in the release. */
async function releasedNumbers(db: StaffDatabase, order: Order): Promise<BriefingNumbers> {
  if ((order.crop ?? order.funder) !== null)
    throw new UserError('A briefing of released numbers is of all crops and funders.', CHOOSE);
  const head = await orderedRelease(db, order);
  if (!head) throw new UserError('Nothing has been released yet.', CHOOSE);
  return readBriefing(db, head, found(parseBriefing(order.wish, head, regionOf(head))));
}

function found<T extends object>(answer: T | { problem: string }): T {
  if ('problem' in answer) throw new UserError(answer.problem, CHOOSE);
  return answer;
}

const CHOOSE = 'Choose again on the page Briefing.';
