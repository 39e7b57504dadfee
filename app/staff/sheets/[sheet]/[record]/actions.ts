'use server';

import { z } from 'zod';
import type { StaffDatabase } from '@/db/clients/staff';
import type { Amendment } from '@/db/repositories/amend';
import { populationOfRecord } from '@/db/repositories/facts';
import { COLUMNS } from '@/lib/intake/columns';
import { amendStored } from '@/lib/jobs/amend-stored';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { staffAction } from '../../../guard/staff-action';
import { recordTexts as texts } from '../../../messages/results';

const number = z.coerce.number().int().positive();
const which = z.object({
  sheet: number,
  record: number,
  seen: z
    .literal('')
    .transform(() => null)
    .or(number),
  why: z.string().trim().min(1, texts.noWhy).max(1_000),
});
type Which = z.output<typeof which>;

/** Says how a cell of a row is to be read. */
export const correctRecord = staffAction(
  'results.correct',
  which.extend({ column: z.enum(COLUMNS), text: z.string().trim().min(1, texts.noText).max(1_000) }),
  ({ db, person, input }) =>
    amended(db, input, person.name, { kind: 'reads', cells: { [input.column]: input.text } }),
);

/** Takes a row back: it counts nowhere. */
export const retractRecord = staffAction('results.correct', which, ({ db, person, input }) =>
  amended(db, input, person.name, { kind: 'dropped' }),
);

async function amended(
  db: StaffDatabase,
  { sheet, record, seen, why }: Which,
  by: string,
  answer: Amendment['answer'],
) {
  const order = { sheetId: sheet, record, seen, why, by, answer, question: null, remember: false };
  const before = await populationOfRecord(db, order);
  const { record: now } = await amendStored(db, order);
  const population = (await populationOfRecord(db, order)) ?? before;
  const outlook = await outlookOf(db, population ? [population] : []);
  return {
    say: [texts.done(texts.outcome[now.outcome], now.result), ...outlookWords(outlook)].join(' '),
    about: `import ${sheet}, row ${record}`,
    details: { answer, why, outcome: now.outcome },
  };
}
