import type { TransactionSql } from 'postgres';
import type { Column } from '@/lib/intake/columns';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { binaryRows, type CopyRows, copyRows } from '../copy';
import { updateFirstFinds } from './first-finds';
import { addHistory } from './history';
import { hasOtherSheets, holdAgainstStore } from './hold-against-store';
import { keysOf } from './keys';
import { lockImports } from './lock';
import { rebuild } from './rebuild';
import { COLUMNS, TYPES, valuesOf } from './record-columns';
import { judgeRuns } from './runs';
import type { Change } from './standing';
import { knownSeasons, type Rows, storeRows } from './store-rows';

/** The file that is stored. */
export interface SheetInput {
  fileName: string;
  /** SHA-256 of the file's bytes, 64 hexadecimal digits: the same file stands once. */
  sha256: string;
  laboratory: string;
  /** Who brought it in. */
  by: string;
  /** ISO day that counted as today. */
  asOf: string;
  /** The case definition under which the results are judged. */
  definition: CaseDefinition;
  /** All its headings in order, by which rows are kept that come with `fields`. */
  headings?: readonly string[];
  /** The sheet's own heading of each column that it has. */
  columns: Partial<Record<Column, string>>;
  /** What each column that it lacks is taken to say. */
  lacking: Partial<Record<Column, string>>;
}

/** One data row of a sheet after intake. */
export type JudgedRecord = Omit<Judged, 'laboratory' | 'reasons' | 'flags' | 'actives'> & {
  readonly reasons: readonly Reason[];
  readonly flags: readonly string[];
  readonly actives: readonly string[];
};

/** What storing a sheet did, or in a dry run would do. */
export interface StoredSheet {
  sheetId: number;
  /** True when this very file had been stored before: nothing was written, the counts are those of then. */
  storedBefore: boolean;
  accepted: number;
  inQuestion: number;
  refused: number;
  /** Populations and tests that were new. */
  populations: number;
  tests: number;
  /** First finds of their state that now await a second run. */
  firstFinds: number;
  /** Records whose outcome changed because the store already held something about them. */
  changes: Change[];
}

export interface StoreOrder {
  sheet: SheetInput;
  /** One by one or in batches, in the order of their numbers; held against each other already (`judgeSheet`). */
  records: Iterable<JudgedRecord> | AsyncIterable<JudgedRecord | Iterable<JudgedRecord>>;
  /** True: all is done and then taken back. */
  dryRun?: boolean;
}

/**
 * Stores a judged sheet: its rows, their questions, and of the rows that count the populations and tests, in one
 * transaction; nothing is left behind when it fails. The same file changes nothing; a row that another sheet has brought
 * already is not counted twice. Sheets are stored one at a time (a second import waits).
 * Errors: a record that is said to be accepted but lacks a field breaks a constraint of `intake.record`.
 * Cost: memory for two chunks of 20,000 rows; the database works on one while the next is judged.
 */
export async function storeSheet(db: StaffDatabase, order: StoreOrder): Promise<StoredSheet> {
  const rollback = new Error('a dry run is taken back');
  let outcome: StoredSheet | null = null;
  try {
    await db.$client.begin(async (sql) => {
      outcome = await store(sql, order);
      if (order.dryRun) throw rollback;
    });
  } catch (error) {
    if (error !== rollback) throw error;
  }
  return outcome!;
}

async function store(sql: TransactionSql, { sheet, records, dryRun }: StoreOrder): Promise<StoredSheet> {
  await lockImports(sql);
  const before = await findSheet(sql, sheet.sha256);
  if (before !== null)
    return { ...before, storedBefore: true, populations: 0, tests: 0, firstFinds: 0, changes: [] };

  const sheetId = await insertSheet(sql, sheet);
  const stored = { ...EMPTY, sheetId, changes: [] as Change[] };
  const repeated = new Set<string>();
  const context = { laboratory: sheet.laboratory, sheetId };
  const making = { ...context, definition: sheet.definition, seasons: await knownSeasons(sql) };
  const hasOthers = await hasOtherSheets(sql, context);
  let namesRuns = false;
  await inChunks(
    records,
    (record) => {
      namesRuns ||= record.run !== null;
      const keys = keysOf(record, sheet.laboratory);
      return valuesOf(sheetId, record, keys, sheet.headings ? record.fields : undefined);
    },
    async ({ bytes, ...rows }) => {
      await copyRows(sql, 'intake.record', COLUMNS, bytes);
      if (hasOthers) stored.changes.push(...(await holdAgainstStore(sql, context, rows)));
      const { counts, ...made } = await storeRows(sql, making, rows);
      for (const name of COUNTS) stored[name] += counts[name];
      for (const key of made.repeated) repeated.add(key);
    },
  );
  if (namesRuns) for (const key of await judgeRuns(sql, { sheetId })) repeated.add(key);
  await rebuild(sql, { populations: [], tests: [...repeated] }, sheet.definition);
  // The planner's figures are of before the sheet: of a large one it would look up each population by itself.
  if (stored.tests > CHUNK) await sql`set local enable_nestloop = off`;
  stored.firstFinds = await updateFirstFinds(sql, { sheetId });
  await addHistory(sql, { by: sheet.by, what: 'import', sheetId, after: counted(stored) });
  await sql`
    update intake.sheet
    set accepted = ${stored.accepted}, in_question = ${stored.inQuestion}, refused = ${stored.refused}
    where id = ${sheetId}`;
  if (!dryRun && stored.accepted + stored.inQuestion + stored.refused > MANY)
    await sql`select intake.renew_statistics()`;
  return stored;
}

/** So many new rows may make what the planner knows of the tables wrong. */
const MANY = 2_000;

const COUNTS = ['accepted', 'inQuestion', 'refused', 'populations', 'tests'] as const;
const EMPTY = {
  ...{ storedBefore: false, accepted: 0, inQuestion: 0, refused: 0 },
  ...{ populations: 0, tests: 0, firstFinds: 0 },
};
/** Under which name each outcome is counted. */
export const COUNTER = { accepted: 'accepted', 'in question': 'inQuestion', refused: 'refused' } as const;

function counted({ accepted, inQuestion, refused }: StoredSheet) {
  return { accepted, inQuestion, refused };
}

async function findSheet(sql: TransactionSql, sha256: string) {
  const [row] = await sql<Pick<StoredSheet, 'sheetId' | 'accepted' | 'inQuestion' | 'refused'>[]>`
    select id as "sheetId", accepted, in_question as "inQuestion", refused from intake.sheet
    where sha256 = ${sha256} and undone_at is null`;
  return row ?? null;
}

async function insertSheet(sql: TransactionSql, s: SheetInput): Promise<number> {
  await sql`insert into intake.laboratory (name) values (${s.laboratory}) on conflict do nothing`;
  const [row] = await sql<{ id: number }[]>`
    insert into intake.sheet (file_name, sha256, laboratory, imported_by, as_of, case_definition, headings, columns, lacking)
    values (${s.fileName}, ${s.sha256}, ${s.laboratory}, ${s.by}, ${s.asOf}, ${s.definition.version},
      ${[...(s.headings ?? [])]}, ${jsonText(s.columns)}::text::jsonb, ${jsonText(s.lacking)}::text::jsonb)
    returning id`;
  return row!.id;
}

/** Fewer rows make more round trips, more rows take more memory. */
const CHUNK = 20_000;

interface Chunk extends Rows {
  bytes: CopyRows;
  seasons: Set<number>;
}

function newChunk(): Chunk {
  return { bytes: binaryRows(TYPES), first: 0, last: 0, seasons: new Set(), areShared: true };
}

/** Hands rows on in chunks; the next chunk is gathered while the last one is worked on. */
async function inChunks(
  records: StoreOrder['records'],
  toRow: (record: JudgedRecord) => unknown[],
  work: (chunk: Chunk) => Promise<void>,
): Promise<void> {
  let chunk = newChunk();
  let working: Promise<void> = Promise.resolve();
  try {
    for await (const some of records) {
      for (const record of Symbol.iterator in some ? some : [some]) {
        note(record, chunk);
        chunk.bytes.add(toRow(record));
        if (chunk.bytes.rows < CHUNK) continue;
        await working;
        working = work(chunk);
        working.catch(() => {}); // it is awaited below, and must not count as unhandled until then
        chunk = newChunk();
      }
    }
  } finally {
    await working;
  }
  if (chunk.bytes.rows > 0) await work(chunk);
}

/** What spares the database a look at all rows of a chunk. */
function note({ record, season, publicShare }: JudgedRecord, chunk: Chunk): void {
  if (chunk.bytes.rows === 0) chunk.first = record;
  chunk.last = record;
  if (season !== null) chunk.seasons.add(season);
  chunk.areShared &&= publicShare;
}
