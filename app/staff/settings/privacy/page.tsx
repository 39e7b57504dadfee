import { count } from '@/app/messages/en/format';
import { type OperationFootprint, operationFootprint } from '@/db/repositories/privacy';
import { ActionForm } from '../../components/action-form';
import { Field } from '../../components/field';
import { staffPage } from '../../guard/staff-page';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';
import { deleteRows, withdraw } from './actions';

const texts = settingsTexts.privacy;

/** A sender withdraws consent, or asks that what is stored of their operation be deleted. */
export default staffPage('privacy.delete', async ({ db, search }) => {
  const operation = [search.operation].flat()[0]?.trim() ?? '';
  const footprint = operation ? await operationFootprint(db, operation) : null;
  return {
    title: texts.title,
    content: (
      <>
        <section aria-labelledby="consent">
          <h2 id="consent">{texts.consentHeading}</h2>
          <p>{texts.consentText}</p>
          <ActionForm action={withdraw} submit={texts.withdraw} grave>
            <Field name="operation" label={texts.operation} hint={texts.operationHint} />
            <Field name="laboratory" label={texts.laboratory} />
            <Field name="sample" label={texts.sample} />
            <Field name="why" label={settingsTexts.why} hint={settingsTexts.whyHint} required />
          </ActionForm>
        </section>
        <section aria-labelledby="delete">
          <h2 id="delete">{texts.deleteHeading}</h2>
          <p>{texts.deleteText}</p>
          <form action="/staff/settings/privacy" method="get" className="staff-filter">
            <Field name="operation" label={texts.operation} value={operation} required />
            <button type="submit">{texts.look}</button>
          </form>
          {footprint ? <Found operation={operation} footprint={footprint} /> : null}
        </section>
        <SettingsFoot />
      </>
    ),
  };
});

function Found({ operation, footprint }: { operation: string; footprint: OperationFootprint }) {
  const { records, populations, tests, released, seasons } = footprint;
  if (records === 0) return <p>{texts.nothing(operation)}</p>;
  return (
    <>
      <p>
        {texts.there(operation, count(records), count(populations), count(tests), seasons.join(', '))}{' '}
        {texts.released(count(released))}
      </p>
      <ActionForm action={deleteRows} submit={texts.delete} grave>
        <input type="hidden" name="operation" value={operation} />
        <Field name="again" label={texts.again} autoComplete="off" required />
        <Field name="why" label={settingsTexts.why} hint={settingsTexts.whyHint} required />
      </ActionForm>
    </>
  );
}
