import { weedName } from '@/app/messages/en/names';
import { type EarlierFind, listEarlierFinds } from '@/db/repositories/first-finds';
import { may } from '@/lib/access/rights';
import { countyName } from '@/lib/geography/atlas';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { ChoiceField, Field } from '../../components/field';
import { staffPage } from '../../guard/staff-page';
import { settingsTexts } from '../../messages/settings';
import { SettingsFoot } from '../settings-foot';
import { enterFind, takeFindOut } from './actions';

const texts = settingsTexts.earlier;

/** Resistance that was known before the programme. */
export default staffPage('settings.see', async ({ db, person }) => {
  const finds = await listEarlierFinds(db);
  const mayChange = may(person.roles, 'finds.earlier');
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        {finds.length === 0 ? (
          <p>{texts.none}</p>
        ) : (
          <DataTable
            caption={texts.caption}
            columns={texts.columns}
            rows={finds.map((find) => ({ key: find.id, cells: cellsOf(find) }))}
          />
        )}
        {mayChange ? <Forms finds={finds} /> : null}
        <SettingsFoot mayChange={mayChange} />
      </>
    ),
  };
});

function Forms({ finds }: { finds: readonly (EarlierFind & { id: number })[] }) {
  return (
    <>
      <section aria-labelledby="add">
        <h2 id="add">{texts.addHeading}</h2>
        <ActionForm action={enterFind} submit={texts.add}>
          <Field name="species" label={texts.eppo} required />
          <Field name="group" label={texts.group} required />
          <Field name="active" label={texts.active} />
          <Field name="season" label={texts.season} required />
          <Field name="county" label={texts.county} required />
          <Field name="source" label={texts.source} required />
        </ActionForm>
      </section>
      {finds.length > 0 ? (
        <section aria-labelledby="remove">
          <h2 id="remove">{texts.removeHeading}</h2>
          <ActionForm action={takeFindOut} submit={texts.remove} grave>
            <ChoiceField
              name="id"
              label={texts.which}
              options={finds.map((find) => [String(find.id), cellsOf(find).slice(0, 5).join(', ')])}
            />
            <Field name="why" label={settingsTexts.why} hint={settingsTexts.whyHint} required />
          </ActionForm>
        </section>
      ) : null}
    </>
  );
}

function cellsOf({ species, group, active, season, county, source }: EarlierFind): string[] {
  return [weedName(species), String(group), active, String(season), countyName(county) ?? county, source];
}
