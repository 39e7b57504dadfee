import { listLaboratories } from '@/db/repositories/laboratories';
import { commonWordings, type Wording, waitingByCode } from '@/db/repositories/question-desk';
import { DataTable } from '../components/data-table';
import { ChoiceField, Field } from '../components/field';
import { staffPage } from '../guard/staff-page';
import { questionTexts as texts } from '../messages/questions';
import { BeingRead } from './being-read';
import { CameOf } from './came-of';
import { readScope, scopeQuery } from './scope';
import '@/app/styles/staff/questions.css';

const WORDINGS = 30;

/** What waits for a person: by kind, by text, and the way to answer one after the other. */
export default staffPage('questions.see', async ({ db, person, search }) => {
  const scope = readScope(search);
  const [codes, wordings, laboratories] = await Promise.all([
    waitingByCode(db, scope),
    commonWordings(db, scope, WORDINGS),
    listLaboratories(db),
  ]);
  const count = codes.reduce((sum, one) => sum + one.count, 0);
  return {
    title: texts.title,
    content: (
      <>
        <p>{texts.intro}</p>
        <CameOf db={db} id={search.done} />
        <BeingRead db={db} person={person} />
        <form action="/staff/questions" method="get" className="staff-filter" aria-label={texts.scope}>
          <Field name="sheet" type="number" label={texts.sheet} value={scope.sheetId?.toString()} />
          <ChoiceField
            name="laboratory"
            label={texts.laboratory}
            value={scope.laboratory}
            options={[['', texts.any], ...laboratories.map((name) => [name, name] as const)]}
          />
          <button type="submit">{texts.show}</button>
        </form>
        <p role="status">{count === 0 ? texts.none : texts.waiting(count)}</p>
        {count === 0 ? null : (
          <>
            <p>
              <a className="staff-go" href={`/staff/questions/next${scopeQuery(scope)}`}>
                {texts.start}
              </a>
            </p>
            <DataTable
              caption={texts.byCode}
              columns={texts.byCodeColumns}
              rows={codes.map(({ code, count: rows, reason }) => ({
                key: code,
                cells: [
                  `${reason.column}: ${reason.reason}`,
                  rows.toLocaleString('en'),
                  <a key="go" href={`/staff/questions/next${scopeQuery({ ...scope, code })}`}>
                    {texts.only}
                  </a>,
                ],
              }))}
            />
          </>
        )}
        {wordings.length > 0 ? (
          <>
            <p>{texts.wordingsText}</p>
            <DataTable
              caption={texts.wordings}
              columns={texts.wordingsColumns}
              rows={wordings.map(wordingRow)}
            />
          </>
        ) : null}
      </>
    ),
  };
});

function wordingRow({ first, text, column, laboratory, count }: Wording) {
  return {
    key: first,
    cells: [
      `“${text}”`,
      column,
      laboratory,
      count.toLocaleString('en'),
      <a key="go" href={`/staff/questions/${first}?all=1`}>
        {texts.explain}
      </a>,
    ],
  };
}
