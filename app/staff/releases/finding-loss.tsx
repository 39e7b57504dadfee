import type { Job } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';
import type { FindingLoss } from '@/lib/jobs/finding-loss';
import { ActionForm } from '../components/action-form';
import { OpenJob } from '../jobs/open-job';
import { findingLossTexts as texts } from '../messages/finding-loss';
import { compareFindings } from './actions';
import { FindingLossTables } from './finding-loss-tables';

/** What the findings of a draft or a release lose beside exact counts: the button, how far it is, what came of it. */
export function FindingLossSection(props: {
  /** What the comparison is asked for. */
  of: { draft: number } | { release: number };
  /** The last comparison; null where there is none. */
  job: Job | null;
  person: Person;
  /** False where nothing can be compared any more. */
  isOpen: boolean;
}) {
  const { of, job, person, isOpen } = props;
  const isBusy = job !== null && job.finishedAt === null;
  const asks = isOpen && !isBusy && job?.state !== 'done' && may(person.roles, 'releases.draft');
  return (
    <section aria-labelledby="finding-loss">
      <h2 id="finding-loss">{texts.heading}</h2>
      <p>{texts.intro}</p>
      {isBusy ? <OpenJob job={job} person={person} /> : null}
      {job?.state === 'failed' ? <p className="staff-outcome">{texts.failed(job.message)}</p> : null}
      {job?.state === 'done' ? <FindingLossTables loss={job.outcome as FindingLoss} /> : null}
      {!isOpen && !isBusy && job?.state !== 'done' ? <p>{texts.none}</p> : null}
      {asks ? (
        <ActionForm action={compareFindings} submit={texts.ask} label={texts.heading}>
          {Object.entries(of).map(([name, value]) => (
            <input key={name} type="hidden" name={name} value={value} />
          ))}
        </ActionForm>
      ) : null}
    </section>
  );
}
