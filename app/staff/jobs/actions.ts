'use server';

import { z } from 'zod';
import { cancelJob } from '@/db/repositories/jobs';
import { staffAction } from '../guard/staff-action';
import { jobTexts as texts } from '../messages/jobs';

/** Ends a job that waits or runs. */
export const cancelWork = staffAction(
  'jobs.cancel',
  z.object({ id: z.uuid() }),
  async ({ db, person, input }) => {
    const job = await cancelJob(db, { id: input.id, by: person.name });
    return { say: texts.cancelled, about: `${job.kind} asked for by ${job.by}`, details: { job: job.id } };
  },
);
