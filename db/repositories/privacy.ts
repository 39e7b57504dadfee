import type { TransactionSql } from 'postgres';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import type { Answer } from '../schema/intake';
import type { KnownPopulation } from './facts';
import { updateFirstFinds } from './first-finds';
import { addHistory } from './history';
import { lockImports } from './lock';
import { rebuild } from './rebuild';
import { type JudgeStored, judgeStoredRows, type Place } from './rejudge';
import { judgeRuns } from './runs';

/** What is stored of an operation. Private. */
export interface OperationFootprint {
  records: number;
  populations: number;
  tests: number;
  /** Of those, populations whose results are in a release that was made. */
  released: number;
  seasons: number[];
}

/** What is stored of an operation, by its id as the sheets have it. */
export async function operationFootprint(db: StaffDatabase, operation: string): Promise<OperationFootprint> {
  const [row] = await db.$client<OperationFootprint[]>`
    select (select count(*)::int from intake.record where operation = ${operation}) as records,
      count(*)::int as populations,
      (select count(*)::int from surveillance.test t join surveillance.population q on q.id = t.population_id
        where q.operation = ${operation}) as tests,
      count(*) filter (where exists (select from surveillance.released_fact f where f.population = p.key))::int as released,
      coalesce(array_agg(distinct p.season order by p.season), '{}') as seasons
    from surveillance.population p where p.operation = ${operation}`;
  return row!;
}

/** Whose consent: an operation, or one sample of a laboratory. */
export type Whose = { operation: string } | { laboratory: string; sample: string };

/** The populations that are stored of an operation or a sample, in order. */
export async function populationsOf(db: StaffDatabase, whose: Whose): Promise<KnownPopulation[]> {
  const none = { operation: null, laboratory: null, sample: null };
  const { operation, laboratory, sample } = { ...none, ...whose };
  return db.$client<KnownPopulation[]>`
    select id::text as id, key::text as key, county, season, species from surveillance.population
    where operation = ${operation} or (laboratory = ${laboratory} and upper(sample) = upper(${sample})) order by 2`;
}

/**
 * Withdraws the consent to count in public: from the next release on the samples enter none, by the rule for late
 * changes. Releases that were made stay as they are. Returns the number of records.
 *
 * @throws UserError where nothing is stored of them
 */
export async function withdrawConsent(
  db: StaffDatabase,
  order: { whose: Whose; by: string; why: string; judge: JudgeStored; definition: CaseDefinition },
): Promise<number> {
  const { whose, by, why, judge, definition } = order;
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const places = await placesOf(sql, whose);
    if (places.length === 0) throw nothingOf(whose);
    const answer: Answer = { kind: 'reads', cells: { share: 'no' } };
    for (const { sheetId, record } of places) {
      await sql`
        insert into intake.amendment (sheet_id, record, answer)
        values (${sheetId}, ${record}, ${jsonText(answer)}::text::jsonb)`;
    }
    await judgeStoredRows(sql, places, { judge, definition });
    await addHistory(sql, { by, why, what: 'consent withdrawn', after: { whose, records: places.length } });
    return places.length;
  });
}

/**
 * Deletes the private rows of an operation: records, questions, answers, populations and tests. Releases stay valid: what
 * they were made of stays in their ledger, without which nobody could tell what their readers can subtract. Returns the
 * number of records.
 *
 * @throws UserError where nothing is stored of it
 */
export async function deleteOperation(
  db: StaffDatabase,
  order: { operation: string; by: string; why: string; definition: CaseDefinition },
): Promise<number> {
  const { operation, by, why, definition } = order;
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const rows = await sql<
      { sheetId: number; kind: string | null; population: string | null; test: string | null }[]
    >`
      select sheet_id as "sheetId", kind, population_key as population, test_key as test
      from intake.record where operation = ${operation}`;
    if (rows.length === 0) throw nothingOf({ operation });
    await sql`delete from intake.question q using intake.record r
      where r.operation = ${operation} and q.sheet_id = r.sheet_id and q.record = r.record`;
    await sql`delete from intake.amendment a using intake.record r
      where r.operation = ${operation} and a.sheet_id = r.sheet_id and a.record = r.record`;
    await sql`delete from intake.record where operation = ${operation}`;
    const tests = new Set(rows.flatMap(({ test }) => test ?? []));
    for (const sheetId of new Set(rows.filter(({ kind }) => kind === 'check').map((row) => row.sheetId)))
      for (const key of await judgeRuns(sql, { sheetId })) tests.add(key);
    const populations = [...new Set(rows.flatMap(({ population }) => population ?? []))];
    await rebuild(sql, { populations, tests: [...tests] }, definition);
    await updateFirstFinds(sql);
    await addHistory(sql, { by, why, what: 'operation deleted', after: { records: rows.length } });
    return rows.length;
  });
}

async function placesOf(sql: TransactionSql, whose: Whose): Promise<Place[]> {
  if ('operation' in whose) {
    return sql<Place[]>`
      select sheet_id as "sheetId", record from intake.record
      where operation = ${whose.operation} and standing and kind is distinct from 'check' order by 1, 2`;
  }
  return sql<Place[]>`
    select r.sheet_id as "sheetId", r.record from intake.record r join intake.sheet s on s.id = r.sheet_id
    where s.laboratory = ${whose.laboratory} and upper(r.sample) = upper(${whose.sample}) and r.standing
      and r.kind is distinct from 'check' order by 1, 2`;
}

function nothingOf(whose: Whose): UserError {
  const name = 'operation' in whose ? `the operation “${whose.operation}”` : `the sample “${whose.sample}”`;
  return new UserError(`Nothing is stored of ${name}.`, 'Write it as the sheets do.');
}
