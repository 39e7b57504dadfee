import { may } from '@/lib/access/rights';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { Field } from '../../components/field';
import { staffPage } from '../../guard/staff-page';
import { homeTexts } from '../../messages/home';
import { settingsTexts } from '../../messages/settings';
import { staffRegion } from '../../region';
import { SettingsFoot } from '../settings-foot';
import { bringDistricts } from './actions';

const texts = settingsTexts.districts;

/** How counties are grouped, and a table to group them otherwise. */
export default staffPage('settings.see', async ({ person, programme }) => {
  if (!programme) return { title: texts.title, content: <p>{homeTexts.start}</p> };
  const mayChange = may(person.roles, 'settings.change');
  const { districts } = staffRegion(programme);
  const own = programme.districts.flatMap(({ code, name, counties }) =>
    counties.map((county) => `${county},${code},${name}`),
  );
  return {
    title: texts.title,
    content: (
      <>
        {programme.simulated && own.length === 0 ? <p>{texts.simulated}</p> : null}
        {districts.length === 0 ? (
          <p>{texts.none}</p>
        ) : (
          <DataTable
            caption={texts.caption}
            columns={texts.columns}
            rows={districts.map(({ code, name, state, counties }) => ({
              key: `${state}|${code}`,
              cells: [code, name, state, counties.length],
            }))}
          />
        )}
        {mayChange ? (
          <section aria-labelledby="load">
            <h2 id="load">{texts.loadHeading}</h2>
            <ActionForm action={bringDistricts} submit={texts.load}>
              <Field name="table" label={texts.table} hint={texts.hint} value={own.join('\n')} lines={10} />
            </ActionForm>
          </section>
        ) : null}
        <SettingsFoot mayChange={mayChange} />
      </>
    ),
  };
});
