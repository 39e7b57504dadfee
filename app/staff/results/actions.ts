'use server';

import { z } from 'zod';
import { removeView, saveView } from '@/db/repositories/saved-views';
import { staffAction } from '../guard/staff-action';
import { resultTexts as texts } from '../messages/results';
import { queryOf, readView } from './address';
import { searchOf } from './search';

/** Keeps a view of the results table under a name. */
export const keepView = staffAction(
  'results.see',
  z.object({ name: z.string().trim().min(1, texts.noName).max(100), query: z.string().max(4_000) }),
  async ({ db, person, input }) => {
    const query = queryOf({ ...readView(searchOf(new URLSearchParams(input.query))), after: null });
    await saveView(db, { personId: person.id, name: input.name, query });
    return { say: texts.saved(input.name), about: `kept the view “${input.name}”` };
  },
);

/** Forgets a view. */
export const forgetView = staffAction(
  'results.see',
  z.object({ id: z.coerce.number().int().positive() }),
  async ({ db, person, input }) => {
    await removeView(db, { personId: person.id, id: input.id });
    return { say: texts.removed, about: `forgot view ${input.id}` };
  },
);
