import type { Job } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';
import { countyName } from '@/lib/geography/atlas';
import type { Region } from '@/lib/geography/types';
import type { StatedSpeed } from '@/lib/jobs/stated-speed';
import type { Pair } from '@/lib/vocabulary/terms';
import { ActionForm } from '../../components/action-form';
import { ChoiceField } from '../../components/field';
import { OpenJob } from '../../jobs/open-job';
import { analysisTexts as texts } from '../../messages/analysis';
import { instantWords } from '../../messages/when';
import { fitSpeed } from '../actions';

/** A speed from a county in which the spread is known to have begun: the form, how far it is, the last answer. */
export function StatedSpeedSection(props: {
  pair: Pair;
  region: Region;
  /** The last one of this pair; null where nobody asked. */
  job: Job | null;
  person: Person;
}) {
  const { pair, region, job, person } = props;
  const isBusy = job !== null && job.finishedAt === null;
  const counties = region.counties
    .map(({ fips }) => [fips, countyName(fips) ?? fips] as const)
    .sort(([, a], [, b]) => a.localeCompare(b, 'en'));
  return (
    <section aria-labelledby="stated-speed">
      <h3 id="stated-speed">{texts.stated}</h3>
      <p>{texts.statedText}</p>
      {isBusy ? <OpenJob job={job} person={person} /> : null}
      {job?.state === 'failed' ? <p className="staff-outcome">{texts.statedFailed(job.message)}</p> : null}
      {job?.state === 'done' ? <Told job={job} /> : null}
      {!isBusy && may(person.roles, 'analysis.start') ? (
        <ActionForm action={fitSpeed} submit={texts.statedButton} label={texts.stated}>
          <input type="hidden" name="species" value={pair.species} />
          <input type="hidden" name="group" value={pair.group} />
          <ChoiceField name="from" label={texts.statedFrom} options={counties} />
        </ActionForm>
      ) : null}
    </section>
  );
}

function Told({ job }: { job: Job }) {
  const { finding, from } = job.outcome as StatedSpeed;
  return (
    <div className="staff-finding">
      <p>
        <strong>{texts.statedIn(from)}</strong> {finding.sentence}
      </p>
      <p className="quiet">{texts.statedBy(job.by, instantWords(job.requestedAt))}</p>
    </div>
  );
}
