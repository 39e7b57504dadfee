'use server';

import { z } from 'zod';
import { changeLaboratory, type ProfileChange } from '@/db/repositories/laboratories';
import { COLUMNS, headingKey } from '@/lib/intake/columns';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { word } from '../words';

const texts = settingsTexts.laboratories;

const form = z
  .object({
    name: word,
    kind: z.enum(['heading', 'lacking', 'reading']),
    /** Empty: a heading that is left aside. */
    column: z.union([z.enum(COLUMNS), z.literal('')]),
    text: z.string().trim().max(300),
    as: z.string().trim().max(300),
  })
  .refine(({ kind, text }) => kind === 'lacking' || text !== '', { path: ['text'], message: texts.needsText })
  .refine(({ kind, column }) => kind === 'heading' || column !== '', {
    path: ['column'],
    message: settingsTexts.required,
  });

/** Says what something in a laboratory's sheets means, from now on. */
export const sayMeaning = staffAction('laboratories.change', form, async ({ db, person, input }) => {
  await changeLaboratory(db, { name: input.name, change: changeOf(input), by: person.name });
  return { say: texts.saved, about: `laboratory ${input.name}`, details: input };
});

function changeOf({ kind, column, text, as }: z.output<typeof form>): ProfileChange {
  if (kind === 'heading') return { headings: { [headingKey(text)]: column || null } };
  if (column === '') return {};
  if (kind === 'lacking') return { lacking: { [column]: as || null } };
  return { readings: [{ column, text, as: as || null }] };
}

/** Forgets what a heading means: it is read as the list of usual headings has it. */
export const forgetHeading = staffAction(
  'laboratories.change',
  z.object({ name: word, heading: word }),
  async ({ db, person, input }) => {
    await changeLaboratory(db, {
      name: input.name,
      change: { headings: { [input.heading]: undefined } },
      by: person.name,
    });
    return { say: texts.saved, about: `laboratory ${input.name}`, details: { forgotten: input.heading } };
  },
);
