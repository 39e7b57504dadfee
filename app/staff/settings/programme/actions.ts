'use server';

import { z } from 'zod';
import { changeProgramme } from '@/db/repositories/programme';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { lines, word } from '../words';

const saying = z.object({
  name: word,
  laboratory: word,
  contact: lines,
  samplesTo: lines,
  regulatedNotice: lines,
  licence: z.string().transform((id) => id || null),
  twoPublishers: z
    .literal('yes')
    .optional()
    .transform((said) => said === 'yes'),
});

/** Saves what the programme says of itself. */
export const saveProgramme = staffAction('settings.change', saying, async ({ db, person, input }) => {
  await changeProgramme(db, { saying: input, by: person.name });
  return { say: settingsTexts.programme.saved, about: 'programme', details: input };
});
