import { type FirstFind, listFirstFinds } from '@/db/repositories/first-finds';
import { may } from '@/lib/access/rights';
import { countyName } from '@/lib/geography/atlas';
import { states } from '@/lib/geography/states';
import { ActionForm } from '../components/action-form';
import { DataTable } from '../components/data-table';
import { ChoiceField, Field, TickField } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { findTexts as texts } from '../messages/finds';
import { pairWords } from '../messages/pairs';
import { confirmFinds, reopenFind } from './actions';

/** First finds of a state: those that await their second run, and those that a person confirmed. */
export default staffPage('finds.see', async ({ db, person }) => {
  const finds = await listFirstFinds(db);
  const waiting = finds.filter(({ confirmedAt }) => confirmedAt === null);
  const confirmed = finds.filter(({ confirmedAt }) => confirmedAt !== null);
  const mayConfirm = may(person.roles, 'finds.confirm');
  return {
    title: texts.title,
    cautions: true,
    content: (
      <>
        <p>{texts.intro}</p>
        <section aria-labelledby="waiting">
          <h2 id="waiting">{texts.waiting}</h2>
          {waiting.length === 0 ? <p>{texts.noneWaiting}</p> : null}
          {mayConfirm && waiting.length > 0 ? (
            <ActionForm action={confirmFinds} submit={texts.confirm} label={texts.waiting}>
              <TickField
                name="ids"
                label={texts.which}
                options={waiting.map((find) => [String(find.id), what(find), more(find)] as const)}
              />
              <Field name="why" label={texts.why} hint={texts.whyHint} lines={3} required />
            </ActionForm>
          ) : (
            <ul className="staff-list">
              {waiting.map((find) => (
                <li key={find.id}>
                  {what(find)}: {more(find)}
                </li>
              ))}
            </ul>
          )}
        </section>
        {confirmed.length > 0 ? (
          <section>
            <h2>{texts.settled}</h2>
            <details>
              <summary>{texts.settledCount(confirmed.length)}</summary>
              <DataTable
                caption={texts.settled}
                columns={texts.columns}
                rows={confirmed.map((find) => ({
                  key: find.id,
                  cells: [what(find), where(find), texts.on(find.confirmedAt!), find.confirmedBy],
                }))}
              />
            </details>
            {mayConfirm ? (
              <details>
                <summary>{texts.reopenHeading}</summary>
                <ActionForm action={reopenFind} submit={texts.reopen} label={texts.reopenHeading} grave>
                  <p>{texts.reopenText}</p>
                  <ChoiceField
                    name="id"
                    label={texts.reopenWhich}
                    options={confirmed.map((find) => [String(find.id), what(find)] as const)}
                  />
                  <Field name="why" label={texts.reopenWhy} required />
                </ActionForm>
              </details>
            ) : null}
          </section>
        ) : null}
      </>
    ),
  };
});

const STATE_NAMES = new Map(states().map(({ fips, name }) => [fips, name]));

function what(find: FirstFind): string {
  return texts.find(pairWords(find), find.active, STATE_NAMES.get(find.stateFips) ?? find.stateFips);
}

function where({ county, season, sample, laboratory }: FirstFind): string {
  return texts.where(countyName(county) ?? county, season, sample, laboratory);
}

function more(find: FirstFind): string {
  const alive = find.treated === null ? [] : [texts.alive(find.alive ?? 0, find.treated)];
  return [where(find), ...alive, texts.held(find.held)].join('; ');
}
