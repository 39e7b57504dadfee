import { type HistoryLine, readHistory } from '@/db/repositories/history';
import type { AskedQuestion } from '@/db/repositories/question-desk';
import { readRecord, type StoredRecord } from '@/db/repositories/read-record';
import { may } from '@/lib/access/rights';
import { COLUMNS, type Column, HEADING } from '@/lib/intake/columns';
import { ActionForm } from '../../../components/action-form';
import { DataTable } from '../../../components/data-table';
import { ChoiceField, Field } from '../../../components/field';
import { LateNote } from '../../../components/late-note';
import { Sorry } from '../../../components/sorry';
import { staffPage } from '../../../guard/staff-page';
import { recordTexts as texts } from '../../../messages/results';
import { answerWords } from '../../../questions/answer-words';
import { correctRecord, retractRecord } from './actions';
import '@/app/styles/staff/results.css';

/** One row of a sheet: as it was sent, as it is read, its history, and a way to correct it or take it back. */
export default staffPage('results.see', async ({ db, person, params }) => {
  const place = { sheetId: Number(params.sheet), record: Number(params.record) };
  const found = Number.isSafeInteger(place.sheetId + place.record) ? await readRecord(db, place) : null;
  if (!found) return { title: texts.unknown, status: 404, content: <Sorry text={texts.unknown} /> };
  const history = await readHistory(db, place);
  return {
    title: texts.title(found.record, found.fileName),
    cautions: true,
    content: (
      <>
        <State row={found} />
        {found.unit ? <LateNote db={db} unit={found.unit} changedAt={found.last?.at ?? null} /> : null}
        <DataTable
          caption={texts.sent}
          columns={[texts.field, texts.text, texts.said]}
          rows={cellsOf(found)}
        />
        <p className="quiet">{texts.sentNote}</p>
        {found.standing && may(person.roles, 'results.correct') ? <Amend row={found} /> : null}
        <History lines={history} />
      </>
    ),
  };
});

function State({ row }: { row: StoredRecord }) {
  const { standing, outcome, result, kind, reasons, questions, testKey, sheetId, release } = row;
  return (
    <section className="staff-good" aria-label={texts.read}>
      <p>
        <strong>{texts.outcome[outcome]}</strong>
        {result || kind ? ` · ${result ?? kind}` : ''}
      </p>
      {standing ? null : <p>{texts.undone}</p>}
      {reasons.length > 0 ? (
        <>
          <p>{texts.reasons}:</p>
          <ul>
            {reasons.map(({ code, column, reason, remedy }) => (
              <li key={`${code} ${column}`}>{`${column}: ${reason} ${remedy}`}</li>
            ))}
          </ul>
        </>
      ) : null}
      {release !== null ? <p>{texts.inRelease(release)}</p> : null}
      <p className="staff-pages">
        {testKey ? <a href={`/staff/results/${testKey}`}>{texts.toResult}</a> : null}
        {questions.map((id) => (
          <a key={id} href={`/staff/questions/${id}`}>{`${texts.questions}: ${id}`}</a>
        ))}
        <a href={`/staff/sheets/${sheetId}`}>{texts.toSheet}</a>
      </p>
    </section>
  );
}

function cellsOf({ raw, columns, readAs }: StoredRecord) {
  const columnOf = new Map(Object.entries(columns).map(([column, heading]) => [heading, column as Column]));
  const seen = new Set<Column>();
  const rows = Object.entries(raw).map(([heading, text]) => {
    const column = columnOf.get(heading);
    if (column) seen.add(column);
    return { key: heading, cells: [heading, text, column === undefined ? '' : (readAs[column] ?? '')] };
  });
  const others = (Object.entries(readAs) as [Column, string][]).filter(([column]) => !seen.has(column));
  return [...rows, ...others.map(([column, text]) => ({ key: column, cells: [HEADING[column], '', text] }))];
}

function Amend({ row }: { row: StoredRecord }) {
  const hidden = (
    <>
      <input type="hidden" name="sheet" value={row.sheetId} />
      <input type="hidden" name="record" value={row.record} />
      <input type="hidden" name="seen" value={row.last?.id ?? ''} />
    </>
  );
  const options = COLUMNS.map((column) => [column, row.columns[column] ?? HEADING[column]] as const);
  return (
    <div className="staff-two">
      <section aria-labelledby="correct">
        <h2 id="correct">{texts.correct}</h2>
        <p>{texts.correctText}</p>
        <ActionForm action={correctRecord} submit={texts.correctButton} label={texts.correct}>
          {hidden}
          <ChoiceField name="column" label={texts.column} options={options} required />
          <Field name="text" label={texts.to} required />
          <Field name="why" label={texts.why} hint={texts.whyHint} required />
        </ActionForm>
      </section>
      <section aria-labelledby="retract">
        <h2 id="retract">{texts.retract}</h2>
        <p>{texts.retractText}</p>
        <ActionForm action={retractRecord} submit={texts.retractButton} label={texts.retract} grave>
          {hidden}
          <Field name="why" label={texts.why} hint={texts.whyHint} required />
        </ActionForm>
      </section>
    </div>
  );
}

function History({ lines }: { lines: readonly HistoryLine[] }) {
  if (lines.length === 0) return <p>{texts.noHistory}</p>;
  return (
    <DataTable
      caption={texts.historyHeading}
      columns={texts.historyColumns}
      rows={lines.map(({ id, at, by, what, why, before, after }) => ({
        key: id,
        cells: [
          at.toISOString().slice(0, 16).replace('T', ' '),
          by,
          what,
          why,
          shortly(before),
          shortly(after),
        ],
      }))}
    />
  );
}

/** The values that are there, one after the other; what was said of the row first. */
function shortly(value: unknown): string {
  if (value === null || typeof value !== 'object') return value === null ? '' : String(value);
  const { answer, ...rest } = value as { answer?: AskedQuestion['answer'] };
  const read = Object.entries(rest)
    .filter(
      ([name, one]) =>
        !BESIDE.has(name) && one !== null && one !== '' && !(Array.isArray(one) && one.length === 0),
    )
    .map(([name, one]) => `${name}: ${Array.isArray(one) ? one.join(' + ') : String(one)}`);
  return [...(answer ? [answerWords({ answer, columns: {} })] : []), ...read].join(' · ');
}

/** What a line of the history holds besides how the row was read. */
const BESIDE = new Set(['by', 'why', 'seen', 'question', 'sheetId', 'record', 'remember']);
