import { type JobLine, listJobs } from '@/db/repositories/jobs';
import { JOB_KINDS } from '@/lib/jobs/kinds';
import { DataTable } from '../components/data-table';
import { staffPage } from '../guard/staff-page';
import { jobTexts as texts } from '../messages/jobs';
import { instantWords } from '../messages/when';
import { OpenJob } from './open-job';

/** All long work: what waits and runs, and how the rest ended. */
export default staffPage('jobs.see', async ({ db, person }) => {
  const jobs = await listJobs(db, { limit: 50 });
  return {
    title: texts.title,
    content: (
      <>
        {jobs
          .filter(({ finishedAt }) => finishedAt === null)
          .map((job) => (
            <section key={job.id} aria-label={JOB_KINDS[job.kind].title}>
              <h2>{JOB_KINDS[job.kind].title}</h2>
              <OpenJob job={job} person={person} />
            </section>
          ))}
        {jobs.length === 0 ? (
          <p>{texts.none}</p>
        ) : (
          <DataTable caption={texts.caption} columns={texts.columns} rows={jobs.map(row)} />
        )}
      </>
    ),
  };
});

function row(job: JobLine) {
  const { id, kind, state, message, by, requestedAt, finishedAt } = job;
  const stands = [texts.states[state], message].filter(Boolean).join(': ');
  return {
    key: id,
    cells: [
      JOB_KINDS[kind].title,
      stands,
      by,
      instantWords(requestedAt),
      finishedAt ? instantWords(finishedAt) : '',
    ],
  };
}
