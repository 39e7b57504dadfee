import { percent } from '@/app/messages/en/format';
import type { Job } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import type { Programme } from '@/db/repositories/programme';
import type { Policy } from '@/lib/disclosure/types';
import type { Consequence } from '@/lib/jobs/consequences';
import type { PublishedShare } from '@/lib/jobs/published-shares';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { Field } from '../../components/field';
import { OpenJob } from '../../jobs/open-job';
import { settingsTexts } from '../../messages/settings';
import { staffRegion } from '../../region';
import { takePolicy } from './actions';
import { POLICY_FIELDS } from './policy-fields';
import { PolicyMaps } from './policy-maps';

const texts = settingsTexts.policy;

/** As a job keeps it; one from before maps were kept has none. */
type Stored = Omit<Consequence, 'pairs' | 'shown'> & Partial<Pick<Consequence, 'shown'>>;

/** What the last proposal would do beside the policy that stands, and the button that takes it. */
export function Consequences(props: {
  job: Job;
  stands: Policy;
  mayChange: boolean;
  person: Person;
  programme: Programme | null;
  search: Record<string, string | string[] | undefined>;
}) {
  const { job, stands, mayChange, person, programme, search } = props;
  if (job.state === 'failed') return <p>{texts.failed(job.message)}</p>;
  if (job.finishedAt === null) return <OpenJob job={job} person={person} />;
  if (job.state !== 'done') return null;
  const [now, then] = (job.outcome as { policies: Stored[] }).policies;
  if (!now || !then) return null;
  return (
    <section aria-labelledby="consequences">
      <h2 id="consequences">{texts.consequences}</h2>
      <ul>
        {POLICY_FIELDS.filter((name) => then.policy[name] !== stands[name]).map((name) => (
          <li key={name}>
            {texts.changed(texts.fields[name][0], String(stands[name]), String(then.policy[name]))}
          </li>
        ))}
      </ul>
      {then.warning ? <p className="staff-wrong">{then.warning}</p> : null}
      <DataTable
        caption={texts.caption}
        columns={texts.tableColumns}
        rows={now.all.map((line, at) => row(line, then.all[at]!))}
      />
      {programme ? (
        <PolicyMaps
          now={now.shown ?? []}
          then={then.shown ?? []}
          region={staffRegion(programme)}
          search={search}
          simulated={programme.simulated}
        />
      ) : null}
      {mayChange ? (
        <ActionForm action={takePolicy} submit={texts.choose}>
          {POLICY_FIELDS.map((name) => (
            <input key={name} type="hidden" name={name} value={then.policy[name]} />
          ))}
          <Field name="why" label={settingsTexts.why} hint={settingsTexts.whyHint} required />
        </ActionForm>
      ) : null}
    </section>
  );
}

function row(now: PublishedShare, then: PublishedShare) {
  const shares = [now, then].map(({ published, cells }) => shareOf(published, cells));
  const inside = [now, then].map(({ inside: count, populations }) => shareOf(count, populations));
  return { key: now.level, cells: [now.level, ...shares, ...inside] };
}

function shareOf(part: number, whole: number): string {
  return whole === 0 ? '–' : percent(part / whole);
}
