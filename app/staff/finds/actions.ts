'use server';

import { z } from 'zod';
import { confirmFirstFinds, populationsHeldBy, reopenFirstFind } from '@/db/repositories/first-finds';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { several } from '../guard/read-form';
import { staffAction } from '../guard/staff-action';
import { findTexts as texts } from '../messages/finds';

const id = z.coerce.number().int().positive();
const why = z.string().trim().min(1, texts.noWhy).max(2_000);

/** Confirms first finds after their second run. */
export const confirmFinds = staffAction(
  'finds.confirm',
  z.object({ ids: several(id).refine((ids) => ids.length > 0, texts.noneTicked), why }),
  async ({ db, person, input }) => {
    await confirmFirstFinds(db, { ...input, by: person.name });
    const outlook = await outlookOf(db, await populationsHeldBy(db, input.ids));
    return {
      say: [texts.confirmed(input.ids.length), ...outlookWords(outlook)].join(' '),
      about: `first finds ${input.ids.join(', ')} confirmed`,
      details: { why: input.why },
    };
  },
);

/** Takes a confirmation back. */
export const reopenFind = staffAction(
  'finds.confirm',
  z.object({ id, why }),
  async ({ db, person, input }) => {
    await reopenFirstFind(db, { ...input, by: person.name });
    const outlook = await outlookOf(db, await populationsHeldBy(db, [input.id]));
    return {
      say: [texts.reopened, ...outlookWords(outlook)].join(' '),
      about: `first find ${input.id} waits again`,
      details: { why: input.why },
    };
  },
);
