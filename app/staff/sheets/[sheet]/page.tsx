import { redirect } from 'next/navigation';
import { readHistory } from '@/db/repositories/history';
import { readImport, type UncountedRow, uncountedRows } from '@/db/repositories/imports';
import { type Job, latestJob } from '@/db/repositories/jobs';
import type { Person } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';
import { ActionForm } from '../../components/action-form';
import { DataTable } from '../../components/data-table';
import { Field } from '../../components/field';
import { Pairs } from '../../components/pairs';
import { Sorry } from '../../components/sorry';
import { staffPage } from '../../guard/staff-page';
import { OpenJob } from '../../jobs/open-job';
import { sheetTexts as texts } from '../../messages/sheets';
import { undoSheet } from '../actions';
import '@/app/styles/staff/sheets.css';

type Import = NonNullable<Awaited<ReturnType<typeof readImport>>>;

const PAGE = 50;
const HISTORY = 200;

/** One import: what it is, the rows of it that do not count, its history, and a way to undo it. */
export default staffPage('sheets.see', async ({ db, person, params, search }) => {
  const id = wholeNumber(params.sheet);
  const row = wholeNumber(search.row);
  if (id && row) redirect(`/staff/sheets/${id}/${row}`);
  const sheet = id ? await readImport(db, id) : null;
  if (!sheet) return { title: texts.unknown, status: 404, content: <Sorry text={texts.unknown} /> };
  const after = wholeNumber(search.after) ?? 0;
  const [rows, history, undoing] = await Promise.all([
    uncountedRows(db, { sheetId: sheet.id, after, limit: PAGE }),
    readHistory(db, { sheetId: sheet.id, latest: HISTORY }),
    latestJob(db, 'undo-import', { sheet: sheet.id }),
  ]);
  return {
    title: texts.oneTitle(sheet.id),
    cautions: true,
    content: (
      <>
        <Facts sheet={sheet} />
        <form
          action={`/staff/sheets/${sheet.id}`}
          method="get"
          className="staff-inline"
          aria-label={texts.findRow}
        >
          <Field name="row" type="number" label={texts.rowNumber} required />
          <button type="submit">{texts.show}</button>
        </form>
        <Uncounted rows={rows} sheetId={sheet.id} />
        <DataTable
          caption={`${texts.historyHeading}${history.length === HISTORY ? `. ${texts.historyMore(HISTORY)}` : ''}`}
          columns={texts.historyColumns}
          rows={history.map(({ id: line, at, by, what, record, why }) => ({
            key: line,
            cells: [at.toISOString().slice(0, 16).replace('T', ' '), by, what, record ?? '', why],
          }))}
        />
        {sheet.undoneAt === null ? <Undo sheet={sheet} job={undoing} person={person} /> : null}
      </>
    ),
  };
});

function Facts({ sheet }: { sheet: Import }) {
  const { id, fileName, laboratory, importedAt, importedBy, accepted, inQuestion, refused } = sheet;
  const when = `${importedAt.toISOString().slice(0, 16).replace('T', ' ')} ${texts.by} ${importedBy}`;
  return (
    <>
      <Pairs
        pairs={[
          [texts.fileName, fileName],
          [texts.laboratory, laboratory],
          [texts.imported, when],
          [texts.counts, texts.countsText(accepted, inQuestion, refused)],
          [texts.asOf, sheet.asOf],
          [texts.definition, sheet.caseDefinition],
        ]}
      />
      {sheet.undoneAt ? (
        <p>{texts.undone(sheet.undoneAt.toISOString().slice(0, 16).replace('T', ' '))}</p>
      ) : null}
      <p className="staff-pages">
        <a href={`/staff/results?sheet=${id}`}>{texts.results}</a>
        <a href={`/staff/questions?sheet=${id}`}>{texts.questions}</a>
      </p>
    </>
  );
}

function Uncounted({ rows, sheetId }: { rows: readonly UncountedRow[]; sheetId: number }) {
  const last = rows.at(-1);
  if (!last) return <p>{texts.refusedNone}</p>;
  return (
    <>
      <DataTable
        caption={texts.refusedHeading}
        columns={texts.refusedColumns}
        rows={rows.map(({ record, line, outcome, reason }) => ({
          key: record,
          cells: [
            <a key="row" href={`/staff/sheets/${sheetId}/${record}`}>
              {record}
            </a>,
            line,
            outcome,
            ...[reason?.column, reason?.value, reason?.reason, reason?.remedy].map((text) => text ?? ''),
          ],
        }))}
      />
      {rows.length === PAGE ? (
        <p>
          <a href={`/staff/sheets/${sheetId}?after=${last.record}`}>{texts.refusedMore}</a>
        </p>
      ) : null}
    </>
  );
}

function Undo({ sheet, job, person }: { sheet: Import; job: Job | null; person: Person }) {
  const isBusy = job !== null && job.finishedAt === null;
  if (!isBusy && !may(person.roles, 'sheets.undo')) return null;
  if (sheet.release !== null) return <p>{texts.inRelease(sheet.release)}</p>;
  return (
    <section aria-labelledby="undo">
      <h2 id="undo">{texts.undo}</h2>
      <p>{texts.undoText}</p>
      {job?.state === 'failed' ? <p className="staff-outcome">{texts.undoFailed(job.message)}</p> : null}
      {isBusy ? (
        <OpenJob job={job} person={person} />
      ) : (
        <ActionForm action={undoSheet} submit={texts.undoButton} label={texts.undo} grave>
          <input type="hidden" name="sheet" value={sheet.id} />
          <Field name="why" label={texts.why} required />
        </ActionForm>
      )}
    </section>
  );
}

function wholeNumber(text: string | string[] | undefined): number | null {
  return typeof text === 'string' && /^\d{1,9}$/.test(text) ? Number(text) : null;
}
