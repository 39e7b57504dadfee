import type { StaffDatabase } from '@/db/clients/staff';
import { listJobs } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import { OpenJob } from '../jobs/open-job';
import { questionTexts as texts } from '../messages/questions';

/**
 * Rows that are being read again as somebody explained.
 *
 * @param brief true: in a sentence, on a page where somebody types
 */
export async function BeingRead({
  db,
  person,
  brief,
}: {
  db: StaffDatabase;
  person: Person;
  brief?: boolean;
}) {
  const jobs = await listJobs(db, { kinds: ['remembered-reading'], onlyOpen: true });
  if (jobs.length === 0) return null;
  if (brief) {
    return (
      <p className="quiet">
        {texts.beingRead} <a href="/staff/questions">{texts.allOf}</a>
      </p>
    );
  }
  return (
    <section aria-label={texts.beingRead}>
      <p>{texts.beingRead}</p>
      {jobs.map((job) => (
        <OpenJob key={job.id} job={job} person={person} />
      ))}
    </section>
  );
}
