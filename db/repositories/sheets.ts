import type { TransactionSql } from 'postgres';
import type { Judged, Reason } from '@/lib/intake/judged';
import { insertRows } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { type Change, judgeAgainstStore, type Keyed } from './standing';

/** The file that is stored. */
export interface SheetInput {
  fileName: string;
  /** SHA-256 of the file's bytes, 64 hexadecimal digits: the same file is stored once. */
  sha256: string;
  laboratory: string;
  /** ISO day that counted as today. */
  asOf: string;
  /** Version of the case definition under which the results were judged. */
  caseDefinition: string;
}

/** One data row of a sheet after intake, without its coordinates: they stay in `raw`. */
export type JudgedRecord = Omit<Judged, 'lat' | 'lon' | 'laboratory' | 'reasons' | 'flags' | 'actives'> & {
  readonly reasons: readonly Reason[];
  readonly flags: readonly string[];
  readonly actives: readonly string[];
};

/** What storing a sheet did. */
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
  /** Records whose outcome changed because the store already held something about them. */
  changes: Change[];
}

/**
 * Stores a judged sheet: its rows, and of the rows that count the populations and tests, in one transaction; nothing
 * is left behind when it fails. The same file changes nothing; a row that another sheet has brought already is not
 * counted twice. Sheets are stored one at a time (a second import waits).
 * Errors: a record that is said to be accepted but lacks a field breaks a constraint of `intake.record`.
 * Cost: about 0.1 ms a row; memory for one batch of 5,000 rows.
 */
export async function storeSheet(
  db: StaffDatabase,
  { sheet, records }: { sheet: SheetInput; records: Iterable<JudgedRecord> | AsyncIterable<JudgedRecord> },
): Promise<StoredSheet> {
  return db.$client.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(hashtext('fencerow.import'))`;
    await sql`set local enable_seqscan = off`; // every look-up below is by key; plans made on small tables go stale
    const before = await findSheet(sql, sheet.sha256);
    if (before !== null) return { ...before, storedBefore: true, populations: 0, tests: 0, changes: [] };

    const stored = { ...EMPTY, sheetId: await insertSheet(sql, sheet), changes: [] as Change[] };
    for await (const batch of batches(records)) {
      const { records: judged, changes } = await judgeAgainstStore(sql, sheet.laboratory, batch);
      await insertRows(
        sql,
        'intake.record',
        COLUMNS,
        judged.map((r) => rowOf(stored.sheetId, r)),
      );
      const range = { sheetId: stored.sheetId, first: batch[0]!.record, last: batch.at(-1)!.record };
      stored.populations += await insertPopulations(sql, sheet.laboratory, range);
      stored.tests += await insertTests(sql, sheet, range);
      stored.changes.push(...changes);
      for (const { outcome } of judged) stored[COUNTER[outcome]]++;
    }
    await sql`
      update intake.sheet
      set accepted = ${stored.accepted}, in_question = ${stored.inQuestion}, refused = ${stored.refused}
      where id = ${stored.sheetId}`;
    return stored;
  });
}

const EMPTY = { storedBefore: false, accepted: 0, inQuestion: 0, refused: 0, populations: 0, tests: 0 };
/** Under which name each outcome is counted. */
export const COUNTER = { accepted: 'accepted', 'in question': 'inQuestion', refused: 'refused' } as const;
const BATCH = 5000;

async function findSheet(sql: TransactionSql, sha256: string) {
  const [row] = await sql<Pick<StoredSheet, 'sheetId' | 'accepted' | 'inQuestion' | 'refused'>[]>`
    select id as "sheetId", accepted, in_question as "inQuestion", refused from intake.sheet where sha256 = ${sha256}`;
  return row ?? null;
}

async function insertSheet(sql: TransactionSql, s: SheetInput): Promise<number> {
  const [row] = await sql<{ id: number }[]>`
    insert into intake.sheet (file_name, sha256, laboratory, as_of, case_definition)
    values (${s.fileName}, ${s.sha256}, ${s.laboratory}, ${s.asOf}, ${s.caseDefinition}) returning id`;
  return row!.id;
}

async function* batches(
  records: Iterable<JudgedRecord> | AsyncIterable<JudgedRecord>,
): AsyncGenerator<JudgedRecord[]> {
  let batch: JudgedRecord[] = [];
  for await (const record of records) {
    batch.push(record);
    if (batch.length === BATCH) {
      yield batch;
      batch = [];
    }
  }
  if (batch.length > 0) yield batch;
}

const COLUMNS = [
  ...[
    'sheet_id',
    'record',
    'line',
    'raw',
    'outcome',
    'reasons',
    'flags',
    'kind',
    'sample',
    'season',
    'species',
  ],
  ...[
    'county',
    'located_by',
    'group_number',
    'actives',
    'assay',
    'rate_multiple',
    'treated',
    'alive',
    'result',
  ],
  ...['design', 'crop', 'funder', 'sender', 'operation', 'public_share', 'collected', 'date_precision'],
  ...['received', 'content_key', 'content_hash'],
];

function rowOf(sheetId: number, { content, ...r }: Keyed): object {
  return {
    ...r,
    sheet_id: sheetId,
    located_by: r.locatedBy,
    group_number: r.group,
    rate_multiple: r.rateMultiple,
    public_share: r.publicShare,
    date_precision: r.datePrecision,
    content_key: content?.key,
    content_hash: content?.hash,
  };
}

interface Range {
  sheetId: number;
  first: number;
  last: number;
}

/** One population for each sample × season × species of the rows that count. Consent counts only where every row gives it. */
async function insertPopulations(sql: TransactionSql, laboratory: string, r: Range): Promise<number> {
  await sql`
    insert into surveillance.season (year)
    select distinct season from intake.record
    where sheet_id = ${r.sheetId} and record between ${r.first} and ${r.last} and kind is not null
    on conflict do nothing`;
  const rows = await sql<{ fresh: number }[]>`
    with counted as (
      select *, bool_and(public_share) over (partition by sample, season, species) as share,
        row_number() over (partition by sample, season, species order by record) as nth
      from intake.record
      where sheet_id = ${r.sheetId} and record between ${r.first} and ${r.last} and kind is not null
    ), written as (
      insert into surveillance.population as p (laboratory, sample, season, species, county, located_by, operation,
        sender, design, crop, funder, collected, date_precision, received, public_share, sheet_id, record)
      select ${laboratory}, sample, season, species, county, located_by, operation, sender, design, crop, funder,
        collected, date_precision, received, share, sheet_id, record
      from counted where nth = 1 order by record
      on conflict (laboratory, sample, season, species)
        do update set public_share = p.public_share and excluded.public_share
      returning (xmax = 0) as fresh
    )
    select count(*) filter (where fresh)::int as fresh from written`;
  return rows[0]!.fresh;
}

async function insertTests(sql: TransactionSql, sheet: SheetInput, r: Range): Promise<number> {
  const written = await sql`
    insert into surveillance.test (population_id, group_number, actives, assay, rate_multiple, treated, alive, kind,
      result, case_definition, sheet_id, record)
    select p.id, i.group_number, i.actives, i.assay, i.rate_multiple, i.treated, i.alive, i.kind,
      case when i.kind = 'tested' then i.result end, ${sheet.caseDefinition}, i.sheet_id, i.record
    from intake.record i
    cross join lateral (
      select id from surveillance.population
      where laboratory = ${sheet.laboratory} and sample = i.sample and season = i.season and species = i.species
      offset 0 -- a look-up for each row, whatever the planner believes of tables that have just grown
    ) p
    where i.sheet_id = ${r.sheetId} and i.record between ${r.first} and ${r.last}
      and i.kind is not null and i.group_number is not null
    order by i.record
    on conflict do nothing`;
  return written.count;
}
