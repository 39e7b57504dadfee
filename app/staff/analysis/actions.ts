'use server';

import { z } from 'zod';
import { enqueue } from '@/lib/jobs/enqueue';
import { staffAction } from '../guard/staff-action';
import { analysisTexts as texts } from '../messages/analysis';

/** Asks for an analysis of what is stored. */
export const startAnalysis = staffAction('analysis.start', z.object({}), async ({ db, person }) => {
  const job = await enqueue(db, { kind: 'analysis', request: {}, by: person.name, personId: person.id });
  return { say: texts.started, about: 'analysis', details: { job } };
});
