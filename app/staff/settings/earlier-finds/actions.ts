'use server';

import { z } from 'zod';
import { addEarlierFinds, removeEarlierFind } from '@/db/repositories/first-finds';
import { countyName } from '@/lib/geography/atlas';
import { species } from '@/lib/vocabulary/species';
import { staffAction } from '../../guard/staff-action';
import { settingsTexts } from '../../messages/settings';
import { why, word } from '../words';

const texts = settingsTexts.earlier;

const find = z.object({
  species: z
    .string()
    .trim()
    .toUpperCase()
    .refine((code) => species(code) !== null, texts.unknownWeed),
  group: z.coerce.number().int().min(0),
  active: z.string().trim().max(100),
  season: z.coerce.number().int().min(1950).max(2100),
  county: z
    .string()
    .trim()
    .refine((fips) => countyName(fips) !== null, texts.unknownCounty),
  source: word,
});

/** Enters a find that was known before the programme. */
export const enterFind = staffAction('finds.earlier', find, async ({ db, person, input }) => {
  await addEarlierFinds(db, { finds: [input], by: person.name });
  return {
    say: texts.added,
    about: `earlier find ${input.species} × group ${input.group}, ${input.county}`,
    details: input,
  };
});

/** Takes an earlier find out again. */
export const takeFindOut = staffAction(
  'finds.earlier',
  z.object({ id: z.coerce.number().int(), why }),
  async ({ db, person, input }) => {
    await removeEarlierFind(db, { ...input, by: person.name });
    return { say: texts.removed, about: `earlier find ${input.id} taken out`, details: { why: input.why } };
  },
);
