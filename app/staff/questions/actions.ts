'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import type { Amendment } from '@/db/repositories/amend';
import { type AskedQuestion, countAlike, nextQuestion, readQuestion } from '@/db/repositories/question-desk';
import { COLUMNS } from '@/lib/intake/columns';
import { amendStored } from '@/lib/jobs/amend-stored';
import { enqueue } from '@/lib/jobs/enqueue';
import { staffAction } from '../guard/staff-action';
import { questionTexts as texts } from '../messages/questions';
import { readScope, scopeQuery } from './scope';

const text = z.string().trim().max(1_000).optional().default('');
const which = z.object({
  question: z.coerce.number().int().positive(),
  why: text,
  sheet: z.string().optional(),
  laboratory: z.string().optional(),
  code: z.string().optional(),
});
type Which = z.output<typeof which>;

/** Rows that are judged again while the page waits, about a second; more are a job. */
const MOST_AT_ONCE = 100;

/** Says what a cell is to be read as: one of the answers that fit, or another text. */
export const answerQuestion = staffAction(
  'questions.answer',
  which.extend({
    choice: text,
    text,
    column: z.enum(COLUMNS).optional(),
    remember: z.string().optional(),
  }),
  async ({ db, person, input }) => {
    const question = await known(db, input.question);
    const column = question.reason.key ?? input.column;
    const reads = input.choice || input.text;
    if (!reads || !column) throw new UserError(texts.chooseOne, '');
    const answer = { kind: 'reads', cells: { [column]: reads } } as const;
    const remember = input.remember !== undefined;
    const settling = { question, answer, input, by: person.name };
    if (!remember || (await countAlike(db, question)) <= MOST_AT_ONCE)
      return settled(db, { ...settling, remember });
    const done = await settled(db, { ...settling, remember: false });
    const { sheetId: sheet, record } = question;
    const request = { sheet, record, column, readAs: reads };
    const job = await enqueue(db, {
      kind: 'remembered-reading',
      ...{ request, by: person.name, personId: person.id },
    });
    return { ...done, details: { ...done.details, remember, job } };
  },
);

/** Lets a row stand in spite of what is asked. */
export const standQuestion = staffAction('questions.answer', which, async ({ db, person, input }) => {
  const question = await known(db, input.question);
  const answer = { kind: 'stands', code: question.reason.code } as const;
  return settled(db, { question, answer, input, by: person.name, remember: false });
});

/** Says that a row does not count. */
export const dropQuestion = staffAction('questions.answer', which, async ({ db, person, input }) => {
  const question = await known(db, input.question);
  return settled(db, { question, answer: { kind: 'dropped' }, input, by: person.name, remember: false });
});

async function known(db: StaffDatabase, id: number): Promise<AskedQuestion> {
  const question = await readQuestion(db, id);
  if (question) return question;
  throw new UserError(texts.unknown, '');
}

interface Settling {
  question: AskedQuestion;
  answer: Amendment['answer'];
  input: Which;
  by: string;
  remember: boolean;
}

/** Stores the answer and leads on to the next question of the same scope. */
async function settled(db: StaffDatabase, { question, answer, input, by, remember }: Settling) {
  const { id, sheetId, record } = question;
  const { alike } = await amendStored(db, {
    ...{ sheetId, record, answer, by, remember },
    why: input.why,
    question: id,
  });
  const scope = readScope({ sheet: input.sheet, laboratory: input.laboratory, code: input.code });
  const next = await nextQuestion(db, scope, id);
  return {
    say: texts.answered,
    about: `question ${id}: import ${sheetId}, row ${record}`,
    details: { answer, why: input.why, remember, alike: alike.length },
    go: `/staff/questions${next === null ? '' : `/${next}`}${scopeQuery(scope, { done: String(id) })}`,
  };
}
