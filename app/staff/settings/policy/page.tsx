import { latestJob } from '@/db/repositories/jobs';
import { listPolicies, standingPolicy } from '@/db/repositories/policies';
import { may } from '@/lib/access/rights';
import type { Policy } from '@/lib/disclosure/types';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { Field } from '../../components/field';
import { staffPage } from '../../guard/staff-page';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';
import { proposePolicy } from './actions';
import { Consequences } from './consequences';
import { POLICY_FIELDS } from './policy-fields';

const texts = settingsTexts.policy;

/** The rules of disclosure that stand, another one with its consequences, and those that were chosen. */
export default staffPage('settings.see', async ({ db, person, programme, search }) => {
  const mayChange = may(person.roles, 'settings.change');
  const [stands, chosen, job] = await Promise.all([
    standingPolicy(db),
    listPolicies(db),
    latestJob(db, 'policy-consequences'),
  ]);
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        <section aria-labelledby="propose">
          <h2 id="propose">{mayChange ? texts.proposeHeading : texts.stands(stands.version)}</h2>
          <ActionForm action={proposePolicy} submit={texts.propose} fixed={!mayChange}>
            {mayChange ? <p>{texts.stands(stands.version)}</p> : null}
            <Fields policy={stands} />
          </ActionForm>
        </section>
        {job ? <Consequences {...{ job, stands, mayChange, person, programme, search }} /> : null}
        <section aria-labelledby="history">
          <h2 id="history">{texts.history}</h2>
          {chosen.length === 0 ? (
            <p>{texts.defaults}</p>
          ) : (
            <DataTable
              caption={texts.history}
              columns={texts.historyColumns}
              rows={chosen.map(({ id, policy, chosenAt, chosenBy, why }) => ({
                key: id,
                cells: [policy.version, chosenAt.toISOString().slice(0, 10), chosenBy, why],
              }))}
            />
          )}
        </section>
        <SettingsFoot mayChange={mayChange} />
      </>
    ),
  };
});

function Fields({ policy }: { policy: Policy }) {
  return POLICY_FIELDS.map((name) => {
    const [label, hint] = texts.fields[name];
    return <Field key={name} name={name} label={label} hint={hint} value={String(policy[name])} required />;
  });
}
