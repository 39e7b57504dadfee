import type { JobLine } from '@/db/repositories/jobs';

/** What the page of somebody who follows a job is told. */
export type JobSummary = Pick<
  JobLine,
  'id' | 'state' | 'by' | 'requestedAt' | 'attempts' | 'stage' | 'done' | 'whole' | 'cancelledBy' | 'message'
> & {
  /** Seconds since it was asked for, where it still waits. */
  waited: number | null;
};

/** Without what was asked for and what came of it. */
export function jobSummary(job: JobLine): JobSummary {
  const { id, state, by, requestedAt, attempts, stage, done, whole, cancelledBy, message } = job;
  const waited = state === 'waiting' ? Math.round((Date.now() - Date.parse(requestedAt)) / 1000) : null;
  return { id, state, by, requestedAt, attempts, stage, done, whole, cancelledBy, message, waited };
}
