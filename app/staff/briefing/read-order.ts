import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { type BriefingWish, wishOf } from '@/lib/briefing/choose';
import type { BriefingNumbers } from '@/lib/briefing/types';
import { readPrivateBriefing } from '@/lib/jobs/private-briefing';
import { programmeOf } from '@/lib/jobs/programme-of';
import { today } from '@/lib/jobs/today';

/** What a form of the page asks for, an empty choice being none. */
export interface Order {
  wish: BriefingWish;
  crop: string | null;
  funder: string | null;
}

export function orderOf(parameters: URLSearchParams): Order {
  const filled = new URLSearchParams([...parameters].filter(([, value]) => value !== ''));
  return { wish: wishOf(filled), crop: filled.get('crop'), funder: filled.get('funder') };
}

/** @throws UserError where the store does not have what is asked for */
export async function numbersOf(db: StaffDatabase, order: Order): Promise<BriefingNumbers> {
  const numbers = await readPrivateBriefing(db, {
    ...order,
    programme: await programmeOf(db),
    date: today(),
  });
  if ('problem' in numbers) throw new UserError(numbers.problem, 'Choose again on the page Briefing.');
  return numbers;
}
