import type { TransactionSql } from 'postgres';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { StandingContext } from './standing';

/** Rows of a sheet by their numbers. */
export interface Rows {
  first: number;
  /** Included. */
  last: number;
  /** What they name, whether they count or not. */
  seasons: ReadonlySet<number>;
  /** Whether all of them agree to public counts. */
  areShared: boolean;
}

/** What was made of rows. */
export interface MadeOfRows {
  counts: { accepted: number; inQuestion: number; refused: number; populations: number; tests: number };
  /** Keys of the tests that have several records now, here or here and before: they are made of all of these. */
  repeated: string[];
}

/** Makes questions, populations and tests of rows that were just stored; adds to `sheet.seasons`. */
export async function storeRows(
  sql: TransactionSql,
  sheet: Sheet & { definition: CaseDefinition },
  rows: Rows,
): Promise<MadeOfRows> {
  const hasNewSeason = [...rows.seasons].some((season) => !sheet.seasons.has(season));
  // Sent together: an answer waits for whatever this process is judging meanwhile.
  const [[outcomes], , seasons, populations, , tests] = await Promise.all([
    countOutcomes(sql, sheet, rows),
    insertQuestions(sql, sheet, rows),
    hasNewSeason ? insertSeasons(sql, sheet, rows) : [],
    insertPopulations(sql, sheet, rows),
    rows.areShared ? [] : withdrawConsent(sql, sheet, rows),
    insertTests(sql, sheet, rows),
  ]);
  for (const { year } of seasons) sheet.seasons.add(year);
  const { keyed, ...counts } = outcomes!;
  const repeated = keyed === tests.count ? [] : await findRepeated(sql, sheet, rows);
  return {
    counts: { ...counts, populations: populations.count, tests: tests.count },
    repeated: repeated.map(({ key }) => key),
  };
}

/** Whose rows they are, and the seasons that the database has. */
type Sheet = StandingContext & { seasons: Set<number> };

/** The seasons that the database has. */
export async function knownSeasons(sql: TransactionSql): Promise<Set<number>> {
  const rows = await sql<{ year: number }[]>`select year from surveillance.season`;
  return new Set(rows.map(({ year }) => year));
}

interface Outcomes {
  accepted: number;
  inQuestion: number;
  refused: number;
  /** Rows of a test. */
  keyed: number;
}

function countOutcomes(sql: TransactionSql, sheet: Sheet, rows: Rows) {
  return sql<Outcomes[]>`
    select count(*) filter (where outcome = 'accepted')::int as accepted,
      count(*) filter (where outcome = 'in question')::int as "inQuestion",
      count(*) filter (where outcome = 'refused')::int as refused, count(test_key)::int as keyed
    from intake.record where ${isOf(sql, sheet, rows)}`;
}

function isOf(sql: TransactionSql, { sheetId }: Sheet, { first, last }: Rows) {
  return sql`sheet_id = ${sheetId} and record between ${first} and ${last}`;
}

function insertQuestions(sql: TransactionSql, sheet: Sheet, rows: Rows) {
  return sql`
    insert into intake.question (sheet_id, record, reason)
    select sheet_id, record, reason.value
    from intake.record cross join lateral jsonb_array_elements(reasons) with ordinality as reason (value, place)
    where ${isOf(sql, sheet, rows)} and outcome = 'in question'
    order by record, reason.place`;
}

function insertSeasons(sql: TransactionSql, sheet: Sheet, rows: Rows) {
  return sql<{ year: number }[]>`
    insert into surveillance.season (year)
    select distinct season from intake.record
    where ${isOf(sql, sheet, rows)} and kind is not null and season is not null
    on conflict do nothing returning year`;
}

/**
 * One population for each sample × season × species of the rows that count: what its first row says. The rows of a
 * sample mostly stand together, so that looking at the row before spares most attempts.
 */
function insertPopulations(sql: TransactionSql, sheet: Sheet, rows: Rows) {
  return sql`
    insert into surveillance.population (key, laboratory, sample, season, species, county, located_by, operation,
      sender, design, crop, funder, collected, date_precision, received, public_share, reported, sheet_id, record)
    select population_key, ${sheet.laboratory}, sample, season, species, county, located_by, operation, sender, design,
      crop, funder, collected, date_precision, received, public_share, (details->>'reported')::date, sheet_id, record
    from (
      select *, lag(population_key) over (order by record) as before
      from intake.record where ${isOf(sql, sheet, rows)}
    ) r
    where population_key is not null and population_key is distinct from before
    order by record
    on conflict (key) do nothing`;
}

/** Consent counts only where every row of a population gives it. */
function withdrawConsent(sql: TransactionSql, sheet: Sheet, rows: Rows) {
  return sql`
    update surveillance.population p set public_share = false
    from (
      select distinct population_key as key from intake.record
      where ${isOf(sql, sheet, rows)} and not public_share and population_key is not null
    ) r
    where p.key = r.key and p.public_share`;
}

/**
 * One test for each of the rows that name a group: the row that counts most, in the order of the keys, which the index
 * takes faster. A test that is there already is made anew later, from all its rows.
 */
function insertTests(sql: TransactionSql, sheet: Sheet & { definition: CaseDefinition }, rows: Rows) {
  return sql`
    insert into surveillance.test (key, population_id, species, group_number, actives, assay, rate_multiple, treated, alive,
      kind, result, case_definition, sheet_id, record)
    select r.test_key, p.id, p.species, r.group_number, r.actives, r.assay, r.rate_multiple, r.treated, r.alive, r.kind,
      case when r.kind = 'tested' then r.result end, ${sheet.definition.version}, r.sheet_id, r.record
    from (select * from intake.record where ${isOf(sql, sheet, rows)} and test_key is not null) r
    join surveillance.population p on p.key = r.population_key
    order by r.test_key, r.kind = 'tested' desc, r.kind = 'void run' desc, r.record
    on conflict (key) do nothing`;
}

function findRepeated(sql: TransactionSql, sheet: Sheet, rows: Rows) {
  const { sheetId } = sheet;
  return sql<{ key: string }[]>`
    select r.test_key as key
    from (select test_key from intake.record where ${isOf(sql, sheet, rows)} and test_key is not null) r
    join surveillance.test t on t.key = r.test_key
    group by 1
    having count(*) > 1 or bool_or(t.sheet_id <> ${sheetId} or t.record not between ${rows.first} and ${rows.last})`;
}
