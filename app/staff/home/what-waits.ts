import type { StaffDatabase } from '@/db/clients/staff';
import { listFirstFinds } from '@/db/repositories/first-finds';
import { lateChanges } from '@/db/repositories/late-changes';
import { listSeasons } from '@/db/repositories/programme';
import { countQuestions } from '@/db/repositories/questions';
import { unreported } from '@/db/repositories/reported';
import { countWaiting } from '@/lib/release/revision/count-waiting';
import { homeTexts as texts } from '../messages/home';
import { lateTexts } from '../messages/late';

/** Something that waits for somebody: what, why it matters, and the page where it is dealt with. */
export interface Waits {
  what: string;
  why: string;
  href: string;
}

/** What waits for the programme's staff, the most urgent first. */
export async function whatWaits(db: StaffDatabase): Promise<Waits[]> {
  const [questions, finds, senders, seasons, late] = await Promise.all([
    countQuestions(db),
    listFirstFinds(db),
    unreported(db),
    listSeasons(db),
    lateChanges(db),
  ]);
  const asked = questions.reduce((sum, one) => sum + one.count, 0);
  const awaiting = finds.filter(({ confirmedAt }) => confirmedAt === null);
  const held = awaiting.reduce((sum, find) => sum + find.held, 0);
  const waits: Waits[] = [];
  if (asked > 0)
    waits.push({ what: texts.questions(asked), why: texts.questionsWhy, href: '/staff/questions' });
  if (awaiting.length > 0) {
    waits.push({
      what: texts.finds(awaiting.length),
      why: texts.findsWhy(held),
      href: '/staff/finds',
    });
  }
  for (const { season, populations } of senders) {
    waits.push({
      what: texts.unreported(populations, season),
      why: texts.unreportedWhy,
      href: '/staff/result-sheets',
    });
  }
  for (const { year, closedAt } of seasons) {
    if (closedAt === null) waits.push({ what: texts.open(year), why: texts.openWhy, href: '/staff/seasons' });
  }
  if (late && late.waiting.length > 0) {
    waits.push({
      what: texts.late(countWaiting(late.waiting), lateTexts.made(late.number, late.isReleased)),
      why: texts.lateWhy,
      href: late.draft === null ? '/staff/releases' : `/staff/releases/drafts/${late.draft}`,
    });
  }
  return waits;
}
