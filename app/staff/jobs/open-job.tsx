import type { JobLine } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../components/action-form';
import { jobTexts as texts } from '../messages/jobs';
import { cancelWork } from './actions';
import { JobProgress } from './job-progress';
import { jobSummary } from './job-summary';

/** A job that waits or runs: how far it is, and a button to end it. */
export function OpenJob({ job, person }: { job: JobLine; person: Person }) {
  return (
    <div className="staff-panel">
      <JobProgress job={jobSummary(job)} />
      {may(person.roles, 'jobs.cancel') && !job.cancelledBy ? (
        <ActionForm action={cancelWork} submit={texts.cancel} grave>
          <input type="hidden" name="id" value={job.id} />
        </ActionForm>
      ) : null}
    </div>
  );
}
