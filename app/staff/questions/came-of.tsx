import type { StaffDatabase } from '@/db/clients/staff';
import { readQuestion } from '@/db/repositories/question-desk';
import { questionTexts as texts } from '../messages/questions';
import { Closed } from './closed';

/** What came of the question that was answered just now. */
export async function CameOf({ db, id }: { db: StaffDatabase; id: string | string[] | undefined }) {
  if (typeof id !== 'string' || !/^\d{1,12}$/.test(id)) return null;
  const question = await readQuestion(db, Number(id));
  if (!question?.closedAt) return null;
  return (
    <section className="staff-good" aria-label={texts.before(question.id)}>
      <Closed question={question} />
    </section>
  );
}
