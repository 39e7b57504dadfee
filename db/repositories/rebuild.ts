import type { TransactionSql } from 'postgres';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { insertRows } from '../bulk';
import { type DerivedTest, deriveTest } from './derive-test';
import { askAboutRuns } from './runs-differ';
import { readTrays } from './trays';

/** What is to be made anew, by keys. */
export interface Touched {
  populations: readonly string[];
  /** Stored ones, or of the populations. */
  tests: readonly string[];
}

/** Keys that are worked on at a time. */
const STEP = 5_000;

/**
 * Makes populations and tests anew from the records that stand: those that have no record left go, the others say what
 * their records say together. A test whose valid runs contradict each other counts as inconclusive, and asks.
 */
export async function rebuild(
  sql: TransactionSql,
  { populations, tests }: Touched,
  definition: CaseDefinition,
): Promise<void> {
  // Tests without a record go before the population that they are of.
  for (const keys of steps(tests)) await dropTests(sql, keys);
  for (const keys of steps(populations)) await makePopulations(sql, keys);
  for (const keys of steps(tests)) {
    await writeTests(
      sql,
      (await readTrays(sql, keys, populations)).map((trays) => deriveTest(trays, definition)),
    );
  }
}

/** Writes derived tests over those of the same key, and asks about those whose runs contradict each other. */
export async function writeTests(sql: TransactionSql, tests: readonly DerivedTest[]): Promise<void> {
  const updates = COLUMNS.slice(1).map((name) => `${name} = excluded.${name}`);
  const conflict = `on conflict (key) do update set ${updates.join(', ')}`;
  await insertRows(
    sql,
    'surveillance.test',
    COLUMNS,
    tests.map(({ row }) => row),
    conflict,
  );
  await askAboutRuns(sql, tests);
}

const COLUMNS = [
  ...[
    'key',
    'population_id',
    'species',
    'group_number',
    'actives',
    'assay',
    'rate_multiple',
    'treated',
    'alive',
    'kind',
  ],
  ...['result', 'case_definition', 'contradictory', 'sheet_id', 'record'],
];

function steps(keys: readonly string[]): string[][] {
  return Array.from({ length: Math.ceil(keys.length / STEP) }, (_, i) =>
    keys.slice(i * STEP, (i + 1) * STEP),
  );
}

async function dropTests(sql: TransactionSql, keys: string[]): Promise<void> {
  await sql`
    delete from surveillance.test t using surveillance.population p
    where t.key = any(${keys}) and p.id = t.population_id and not exists (select from intake.record r
      where r.population_key = p.key and r.test_key = t.key and r.standing and r.kind is not null)`;
}

async function makePopulations(sql: TransactionSql, keys: string[]): Promise<void> {
  await sql`
    insert into surveillance.season (year)
    select distinct season from intake.record
    where population_key = any(${keys}) and standing and kind is not null
    on conflict do nothing`;
  await sql`
    with standing as (
      select r.*, s.laboratory, bool_and(r.public_share) over (partition by r.population_key) as share,
        row_number() over (partition by r.population_key order by r.sheet_id, r.record) as nth
      from intake.record r join intake.sheet s on s.id = r.sheet_id
      where r.population_key = any(${keys}) and r.standing and r.kind is not null
    )
    insert into surveillance.population as p (key, laboratory, sample, season, species, county, located_by, operation,
      sender, design, crop, funder, collected, date_precision, received, public_share, reported, sheet_id, record)
    select population_key, laboratory, sample, season, species, county, located_by, operation, sender, design, crop,
      funder, collected, date_precision, received, share, (details->>'reported')::date, sheet_id, record
    from standing where nth = 1
    on conflict (key) do update set county = excluded.county, located_by = excluded.located_by,
      operation = excluded.operation, sender = excluded.sender, design = excluded.design, crop = excluded.crop,
      funder = excluded.funder, collected = excluded.collected, date_precision = excluded.date_precision,
      received = excluded.received, public_share = excluded.public_share,
      reported = coalesce(p.reported, excluded.reported), sheet_id = excluded.sheet_id, record = excluded.record`;
  await sql`
    delete from surveillance.population p where p.key = any(${keys})
      and not exists (select from intake.record r where r.population_key = p.key and r.standing and r.kind is not null)`;
}
