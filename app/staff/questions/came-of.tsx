import type { StaffDatabase } from '@/db/clients/staff';
import { populationOfRecord } from '@/db/repositories/facts';
import { closedSeasons } from '@/db/repositories/programme';
import { type AskedQuestion, readQuestion } from '@/db/repositories/question-desk';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { questionTexts as texts } from '../messages/questions';
import { Closed } from './closed';

/** What came of the question that was answered just now, and what it does in public. */
export async function CameOf({ db, id }: { db: StaffDatabase; id: string | string[] | undefined }) {
  if (typeof id !== 'string' || !/^\d{1,12}$/.test(id)) return null;
  const question = await readQuestion(db, Number(id));
  if (!question?.closedAt) return null;
  const inPublic = await publicWords(db, question);
  return (
    <section className="staff-good" aria-label={texts.before(question.id)}>
      <Closed question={question} />
      {inPublic.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </section>
  );
}

/** Nothing of a season under way, whose results wait for no others: who answers hundreds of its questions is not kept. */
async function publicWords(db: StaffDatabase, question: AskedQuestion): Promise<string[]> {
  const population = await populationOfRecord(db, question);
  if (!population || !(await closedSeasons(db)).includes(population.season)) return [];
  return outlookWords(await outlookOf(db, [population]));
}
