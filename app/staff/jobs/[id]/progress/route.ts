import { readJob } from '@/db/repositories/jobs';
import { staffRoute } from '../../../guard/staff-route';
import { jobSummary } from '../../job-summary';

/** How far a job is, as JSON. */
export const GET = staffRoute('jobs.see', async ({ db, params }) => {
  const job = await readJob(db, params.id!);
  return job ? Response.json(jobSummary(job)) : Response.json(null, { status: 404 });
});
