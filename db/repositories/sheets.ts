import type { TransactionSql } from 'postgres';
import type { Column } from '@/lib/intake/columns';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { type CopyText, copyRows, copyText } from '../copy';
import { updateFirstFinds } from './first-finds';
import { addHistory } from './history';
import { hasOtherSheets, holdAgainstStore } from './hold-against-store';
import { keysOf } from './keys';
import { lockImports } from './lock';
import { rebuild } from './rebuild';
import { COLUMNS, valuesOf } from './record-columns';
import { judgeRuns } from './runs';
import type { Change } from './standing';

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
  /** Held against each other already (`judgeSheet`). */
  records: Iterable<JudgedRecord> | AsyncIterable<JudgedRecord>;
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

async function store(sql: TransactionSql, { sheet, records }: StoreOrder): Promise<StoredSheet> {
  await lockImports(sql);
  const before = await findSheet(sql, sheet.sha256);
  if (before !== null)
    return { ...before, storedBefore: true, populations: 0, tests: 0, firstFinds: 0, changes: [] };

  const sheetId = await insertSheet(sql, sheet);
  const stored = { ...EMPTY, sheetId, changes: [] as Change[] };
  const repeated = new Set<string>();
  const hasOthers = await hasOtherSheets(sql, { sheetId });
  await sql`truncate intake.incoming`;
  await inChunks(
    records,
    (record) => valuesOf(sheetId, record, keysOf(record, sheet.laboratory)),
    async (chunk) => {
      await copyRows(sql, 'intake.incoming', COLUMNS, chunk);
      const held = await holdAgainstStore(sql, { laboratory: sheet.laboratory, sheetId }, hasOthers);
      stored.changes.push(...held.changes);
      for (const key of held.repeated) repeated.add(key);
      const counts = await storeIncoming(sql, sheet);
      for (const name of COUNTS) stored[name] += counts[name];
    },
  );
  for (const key of await judgeRuns(sql, { sheetId })) repeated.add(key);
  await rebuild(sql, { populations: [], tests: [...repeated] }, sheet.definition);
  stored.firstFinds = await updateFirstFinds(sql, { sheetId });
  await addHistory(sql, { by: sheet.by, what: 'import', sheetId, after: counted(stored) });
  await sql`
    update intake.sheet
    set accepted = ${stored.accepted}, in_question = ${stored.inQuestion}, refused = ${stored.refused}
    where id = ${sheetId}`;
  return stored;
}

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
    insert into intake.sheet (file_name, sha256, laboratory, imported_by, as_of, case_definition, columns, lacking)
    values (${s.fileName}, ${s.sha256}, ${s.laboratory}, ${s.by}, ${s.asOf}, ${s.definition.version},
      ${jsonText(s.columns)}::text::jsonb, ${jsonText(s.lacking)}::text::jsonb)
    returning id`;
  return row!.id;
}

/** Fewer rows make more round trips, more rows take more memory. */
const CHUNK = 20_000;

/** Hands rows on in chunks; the next chunk is gathered while the last one is worked on. */
async function inChunks(
  records: StoreOrder['records'],
  toRow: (record: JudgedRecord) => unknown[],
  work: (chunk: CopyText) => Promise<void>,
): Promise<void> {
  let chunk = copyText();
  let working: Promise<void> = Promise.resolve();
  try {
    for await (const record of records) {
      chunk.add(toRow(record));
      if (chunk.rows < CHUNK) continue;
      await working;
      working = work(chunk);
      working.catch(() => {}); // it is awaited below, and must not count as unhandled until then
      chunk = copyText();
    }
  } finally {
    await working;
  }
  await work(chunk);
}

/** Moves the rows of `intake.incoming` to where they stay; returns how many there were of each. */
async function storeIncoming(
  sql: TransactionSql,
  { laboratory, definition }: SheetInput,
): Promise<Pick<StoredSheet, (typeof COUNTS)[number]>> {
  const names = sql.unsafe(COLUMNS.join(', '));
  await sql`insert into intake.record (${names}) select ${names} from intake.incoming`;
  await insertQuestions(sql);
  const populations = await insertPopulations(sql, laboratory);
  const tests = await insertTests(sql, definition.version);
  const [outcomes] = await sql<Pick<StoredSheet, 'accepted' | 'inQuestion' | 'refused'>[]>`
    select count(*) filter (where outcome = 'accepted')::int as accepted,
      count(*) filter (where outcome = 'in question')::int as "inQuestion",
      count(*) filter (where outcome = 'refused')::int as refused
    from intake.incoming`;
  await sql`truncate intake.incoming`;
  return { ...outcomes!, populations, tests };
}

async function insertQuestions(sql: TransactionSql): Promise<void> {
  await sql`
    insert into intake.question (sheet_id, record, reason)
    select i.sheet_id, i.record, reason.value
    from intake.incoming i cross join lateral jsonb_array_elements(i.reasons) with ordinality as reason (value, place)
    where i.outcome = 'in question'
    order by i.record, reason.place`;
}

/** One population for each sample × season × species of the rows that count. Consent counts only where every row gives it. */
async function insertPopulations(sql: TransactionSql, laboratory: string): Promise<number> {
  await sql`
    insert into surveillance.season (year)
    select distinct season from intake.incoming where kind is not null and season is not null
    on conflict do nothing`;
  const [row] = await sql<{ fresh: number }[]>`
    with first as (
      select population_key, min(record) as record, bool_and(public_share) as share
      from intake.incoming where population_key is not null group by 1
    ), written as (
      insert into surveillance.population as p (key, laboratory, sample, season, species, county, located_by, operation,
        sender, design, crop, funder, collected, date_precision, received, public_share, reported, sheet_id, record)
      select population_key, ${laboratory}, sample, season, species, county, located_by, operation, sender, design, crop,
        funder, collected, date_precision, received, share, (details->>'reported')::date, sheet_id, record
      from first join intake.incoming using (population_key, record) order by record
      on conflict (key) do update set public_share = false where p.public_share and not excluded.public_share
      returning (xmax = 0) as fresh
    )
    select count(*) filter (where fresh)::int as fresh from written`;
  return row!.fresh;
}

/** One test for each of the rows that name a group; a test that is there already is made anew later, from all its rows. */
async function insertTests(sql: TransactionSql, caseDefinition: string): Promise<number> {
  const written = await sql`
    insert into surveillance.test (key, population_id, group_number, actives, assay, rate_multiple, treated, alive, kind,
      result, case_definition, sheet_id, record)
    select i.test_key, p.id, i.group_number, i.actives, i.assay, i.rate_multiple, i.treated,
      i.alive, i.kind, case when i.kind = 'tested' then i.result end, ${caseDefinition}, i.sheet_id, i.record
    from (
      select distinct on (test_key) test_key, record from intake.incoming where test_key is not null
      order by test_key, kind = 'tested' desc, kind = 'void run' desc, record
    ) first
    join intake.incoming i using (record)
    join surveillance.population p on p.key = i.population_key
    order by i.test_key
    on conflict do nothing`;
  return written.count;
}
