'use server';

import { z } from 'zod';
import { enqueue } from '@/lib/jobs/enqueue';
import { staffAction } from '../guard/staff-action';
import { analysisTexts as texts } from '../messages/analysis';
import { pairWords } from '../messages/pairs';

/** Asks for an analysis of what is stored. */
export const startAnalysis = staffAction('analysis.start', z.object({}), async ({ db, person }) => {
  const job = await enqueue(db, { kind: 'analysis', request: {}, by: person.name, personId: person.id });
  return { say: texts.started, about: 'analysis', details: { job } };
});

/** Asks for the speed of a pair from a county in which it is known to have begun. */
export const fitSpeed = staffAction(
  'analysis.start',
  z.object({
    species: z.string(),
    group: z.coerce.number().int(),
    from: z.string().regex(/^\d{5}$/),
  }),
  async ({ db, person, input }) => {
    const { id: personId, name: by } = person;
    const job = await enqueue(db, { kind: 'stated-speed', request: input, by, personId });
    const about = `speed of ${pairWords(input)} from ${input.from}`;
    return { say: texts.statedAsked, about, details: { job, ...input } };
  },
);
