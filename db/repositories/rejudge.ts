import type { TransactionSql } from 'postgres';
import type { Column } from '@/lib/intake/columns';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { LaboratoryProfile, RowAnswers } from '@/lib/intake/laboratory-profile';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { jsonText } from '../bulk';
import type { Answer, StoredRaw } from '../schema/intake';
import { asSent } from './as-sent';
import { updateFirstFinds } from './first-finds';
import { keysOf } from './keys';
import { rebuild } from './rebuild';
import { COLUMNS, valuesOf } from './record-columns';
import { judgeRuns } from './runs';
import { RUNS_DIFFER } from './runs-differ';
import { judgeAgainstStore } from './standing';

/** Which record. */
export interface Place {
  sheetId: number;
  record: number;
}

/** A record as it was sent, with what is needed to judge it. */
export interface StoredRow extends Place {
  line: number;
  raw: Record<string, string>;
  /** The sheet's own heading of each column. */
  columns: Partial<Record<Column, string>>;
  laboratory: string;
  /** The day that counted as today when the sheet came in. */
  asOf: string;
}

/** Judges one stored row by itself. */
export type JudgeStored = (row: StoredRow, profile: LaboratoryProfile, answers: RowAnswers) => Judged;

/** What a record is after it was judged again. */
export interface Rejudged extends Place {
  outcome: Judged['outcome'];
  result: Judged['result'];
  reasons: readonly Reason[];
}

/** Judges records again with all that was answered about them, and makes what depends on them anew. */
export async function judgeStoredRows(
  sql: TransactionSql,
  places: readonly Place[],
  { judge, definition }: { judge: JudgeStored; definition: CaseDefinition },
): Promise<Rejudged[]> {
  const touched = { populations: new Set<string>(), tests: new Set<string>(), runs: new Set<number>() };
  const done: Rejudged[] = [];
  for (const place of places) {
    const row = await storedRow(sql, place);
    const old = await keysAndRun(sql, place);
    const answers = combined(await answersTo(sql, place));
    const judged = judge(row, await profileFor(sql, row), answers);
    const claim = { ...judged, run: judged.run ?? ownRun(place, answers) };
    const { records } = await judgeAgainstStore(
      sql,
      { laboratory: row.laboratory, sheetId: place.sheetId, stands: answers.stands, itself: place.record },
      [{ ...claim, ...keysOf(claim, row.laboratory) }],
    );
    const record = records[0]!;
    const values = valuesOf(place.sheetId, record, record);
    const json = Object.fromEntries(COLUMNS.map((name, i) => [name, values[i]]));
    for (const name of ['reasons', 'details']) json[name] = JSON.parse(json[name] as string);
    await sql.unsafe(
      `update intake.record set (${READ}) = (select ${READ} from json_populate_record(null::intake.record, $1::text::json))
       where sheet_id = $2 and record = $3`,
      [jsonText(json), place.sheetId, place.record],
    );
    await keepQuestions(sql, place, record.outcome === 'in question' ? record.reasons : []);
    for (const key of [old.population, record.populationKey]) if (key !== null) touched.populations.add(key);
    for (const key of [old.test, record.testKey]) if (key !== null) touched.tests.add(key);
    if (old.kind === 'check' || record.kind === 'check') touched.runs.add(place.sheetId);
    done.push({ ...place, outcome: record.outcome, result: record.result, reasons: record.reasons });
  }
  for (const sheetId of touched.runs)
    for (const key of await judgeRuns(sql, { sheetId })) touched.tests.add(key);
  await rebuild(sql, { populations: [...touched.populations], tests: [...touched.tests] }, definition);
  await updateFirstFinds(sql);
  return done;
}

/** What is read of a row: what was sent stays. */
const READ = COLUMNS.filter((name) => name !== 'raw').join(', ');

/** All answers to a record as one: later cells over earlier ones; dropped where that was said last. */
function combined(answers: readonly Answer[]): RowAnswers {
  return {
    cells: Object.assign({}, ...answers.map((answer) => (answer.kind === 'reads' ? answer.cells : {}))),
    stands: answers.flatMap((answer) => (answer.kind === 'stands' ? answer.code : [])),
    dropped: answers.at(-1)?.kind === 'dropped',
  };
}

/** A row that a person says is a second run has a run of its own where the sheet names none. */
function ownRun({ sheetId, record }: Place, { stands }: RowAnswers): string | null {
  const second = stands.some((code) => code === 'DUPLICATE_DIFFERS' || code === 'DUPLICATE_CONFLICT');
  return second ? `import ${sheetId}, record ${record}` : null;
}

async function storedRow(sql: TransactionSql, { sheetId, record }: Place): Promise<StoredRow> {
  const [row] = await sql<(Omit<StoredRow, 'raw'> & { raw: StoredRaw; headings: string[] })[]>`
    select r.sheet_id as "sheetId", r.record, r.line, r.raw, s.headings, s.columns, s.laboratory, s.as_of::text as "asOf"
    from intake.record r join intake.sheet s on s.id = r.sheet_id
    where r.sheet_id = ${sheetId} and r.record = ${record}`;
  const { headings, raw, ...rest } = row!;
  return { ...rest, raw: asSent(raw, headings) };
}

async function keysAndRun(sql: TransactionSql, { sheetId, record }: Place) {
  const [row] = await sql<{ population: string | null; test: string | null; kind: Judged['kind'] }[]>`
    select population_key as population, test_key as test, kind from intake.record
    where sheet_id = ${sheetId} and record = ${record}`;
  return row!;
}

async function answersTo(sql: TransactionSql, { sheetId, record }: Place): Promise<Answer[]> {
  const rows = await sql<{ answer: Answer }[]>`
    select answer from intake.amendment where sheet_id = ${sheetId} and record = ${record} order by id`;
  return rows.map(({ answer }) => answer);
}

/** What is remembered of the laboratory; a lacking column says what it was taken to say when the sheet came in. */
async function profileFor(
  sql: TransactionSql,
  { laboratory, sheetId }: StoredRow,
): Promise<LaboratoryProfile> {
  const [sheet] = await sql<{ lacking: LaboratoryProfile['lacking'] }[]>`
    select lacking from intake.sheet where id = ${sheetId}`;
  const readings = await sql<LaboratoryProfile['readings'][number][]>`
    select column_name as "column", text, read_as as "as" from intake.reading where laboratory = ${laboratory}`;
  return { headings: {}, lacking: sheet!.lacking, readings: [...readings] };
}

/** Closes the questions that are asked no longer and asks those that are new; the question about runs is the test's. */
async function keepQuestions(
  sql: TransactionSql,
  { sheetId, record }: Place,
  reasons: readonly Reason[],
): Promise<void> {
  const asked = reasons.map(({ code, column }) => `${code}|${column}`);
  await sql`
    update intake.question set closed_at = now()
    where sheet_id = ${sheetId} and record = ${record} and closed_at is null and reason->>'code' <> ${RUNS_DIFFER}
      and reason->>'code' || '|' || (reason->>'column') <> all(${asked})`;
  for (const reason of reasons) {
    await sql`
      insert into intake.question (sheet_id, record, reason)
      select ${sheetId}, ${record}, ${jsonText(reason)}::text::jsonb
      where not exists (select from intake.question where sheet_id = ${sheetId} and record = ${record}
        and closed_at is null and reason->>'code' = ${reason.code} and reason->>'column' = ${reason.column})`;
  }
}
