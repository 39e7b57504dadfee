import { listLaboratories } from '@/db/repositories/laboratories';
import { countResults, listResults, type ResultRow } from '@/db/repositories/results';
import { listSavedViews } from '@/db/repositories/saved-views';
import { DataTable } from '../components/data-table';
import { staffPage } from '../guard/staff-page';
import { resultTexts as texts } from '../messages/results';
import { staffRegion } from '../region';
import { queryOf, type ResultView, readView } from './address';
import { RESULT_COLUMNS } from './columns';
import { ResultsForm } from './results-form';
import { SavedViews } from './saved-views';
import '@/app/styles/staff/results.css';

const PAGE = 50;
/** Results are counted up to here. */
const MOST = 500;

/** The results table: filtered, ordered and paged by the database. */
export default staffPage('results.see', async ({ db, person, programme, search }) => {
  const view = readView(search);
  const [{ rows, next }, count, laboratories, views] = await Promise.all([
    listResults(db, { ...view, limit: PAGE }),
    countResults(db, view.filter, MOST),
    listLaboratories(db),
    listSavedViews(db, person.id),
  ]);
  const fromStart = { ...view, after: null };
  return {
    title: texts.title,
    cautions: true,
    content: (
      <>
        <p>{texts.intro}</p>
        <SavedViews views={views} query={queryOf(fromStart)} />
        <ResultsForm view={view} region={programme && staffRegion(programme)} laboratories={laboratories} />
        <p role="status">{texts.count(count.count, count.more)}</p>
        {rows.length > 0 ? <ResultsTable rows={rows} view={view} /> : null}
        <nav className="staff-pages" aria-label={texts.caption}>
          {view.after ? <a href={`/staff/results?${queryOf(fromStart)}`}>{texts.start}</a> : null}
          {next ? <a href={`/staff/results?${queryOf({ ...view, after: next })}`}>{texts.next}</a> : null}
        </nav>
        <p>
          <a href={`/staff/results/file?${queryOf(fromStart)}`}>{texts.export}</a>
          <br />
          <span className="quiet">{texts.exportHint}</span>
        </p>
      </>
    ),
  };
});

function ResultsTable({ rows, view }: { rows: readonly ResultRow[]; view: ResultView }) {
  const shown = view.columns.map((name) => RESULT_COLUMNS[name]);
  return (
    <DataTable
      caption={texts.caption}
      columns={shown.map(({ heading }) => heading)}
      rows={rows.map((row) => ({
        key: `${row.key} ${row.record}`,
        cells: shown.map(({ heading, text }, at) =>
          at === 0 ? (
            <a key={heading} href={`/staff/results/${row.key}`}>
              {text(row) || '–'}
            </a>
          ) : (
            text(row)
          ),
        ),
      }))}
    />
  );
}
