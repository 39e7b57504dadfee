import type { PendingQuery, Row, Sql } from 'postgres';
import type { StaffDatabase } from '../../clients/staff';
import { type ResultRow, resultColumns } from './result-columns';
import { all, populationConditions, type ResultFilter, testConditions } from './result-filter';

/** In which order; `row` is that of an import's own rows, and the only one where one import is looked at. */
export const RESULT_ORDERS = ['newest', 'oldest', 'sample', 'county', 'season'] as const;
export type ResultOrder = (typeof RESULT_ORDERS)[number];

/** Where the last page ended: the value it is ordered by, as text, and what tells rows apart that have the same. */
export interface ResultPlace {
  by: string;
  population: number;
  key: string;
}

export interface ResultQuery {
  filter: ResultFilter;
  order: ResultOrder;
  /** Rows after this place; from the beginning where it is null. */
  after: ResultPlace | null;
  limit: number;
}

export interface ResultPage {
  rows: ResultRow[];
  /** Where the next page begins; null where this is the last. */
  next: ResultPlace | null;
}

/**
 * One page of the results. Pages are found by the last row of the one before, never by counting rows off, so that a late
 * page takes no longer than the first and rows that come meanwhile shift nothing.
 */
export async function listResults(db: StaffDatabase, query: ResultQuery): Promise<ResultPage> {
  const found = await steered(db, (sql) => selectResults(sql, query, query.limit + 1));
  const page = found.slice(0, query.limit);
  const rows = page.map(({ by: _, ...row }) => row);
  return { rows, next: found.length > query.limit ? placeOf(page.at(-1)!) : null };
}

/** How many results there are: exactly up to `most`, else that there are more. */
export interface ResultCount {
  count: number;
  more: boolean;
}

/** Counts results, and stops at `most`: to count a million takes longer than anybody waits. */
export async function countResults(
  db: StaffDatabase,
  filter: ResultFilter,
  most: number,
): Promise<ResultCount> {
  const [row] = await steered(db, (sql) => {
    const query = { filter, order: 'newest', after: null } as const;
    return sql<{ count: number }[]>`
      ${driver(sql, filter)} select count(*)::int as count from (
        select from ${sources(sql, filter)} where ${conditions(sql, query)} limit ${most + 1}
      ) counted`;
  });
  return { count: Math.min(row!.count, most), more: row!.count > most };
}

/** All results of a filter in batches of 5,000, at one state of the database, in memory for one batch. */
export async function* streamResults(
  db: StaffDatabase,
  { filter, order }: Pick<ResultQuery, 'filter' | 'order'>,
): AsyncGenerator<ResultRow[]> {
  yield* selectResults(db.$client, { filter, order, after: null }, null).cursor(5_000);
}

type Selection = Omit<ResultQuery, 'limit'>;

/**
 * Runs a query that stops early by walking an index. The planner takes rows that fit to lie evenly along the index; where
 * a season is one piece of it, it would rather join a whole table. It plans for what is asked each time: a rare result
 * has an index that a plan for any result could not use.
 */
async function steered<T>(db: StaffDatabase, query: (sql: Sql) => PromiseLike<T>): Promise<T> {
  const result = await db.$client.begin('read only', async (transaction) => {
    const sql = transaction as unknown as Sql;
    const [, is] = await Promise.all([sql.unsafe(STEERING), query(sql)]);
    return { is };
  });
  return (result as { is: T }).is;
}

const STEERING = [
  'enable_mergejoin = off',
  'enable_hashjoin = off',
  'jit = off',
  'plan_cache_mode = force_custom_plan',
]
  .map((setting) => `set local ${setting}`)
  .join('; ');

function selectResults(sql: Sql, query: Selection, limit: number | null) {
  const { filter } = query;
  const row = filter.sheetId === undefined ? sql`t.sheet_id as "sheetId", t.record` : ROW(sql);
  return sql<(ResultRow & { by: string })[]>`
    ${driver(sql, filter)}
    select ${resultColumns(sql)}, ${row}, ${orderOf(sql, query).by}::text as by
    from ${sources(sql, filter)}
    where ${conditions(sql, query)}
    order by ${ordering(sql, query)}
    ${limit === null ? sql`` : sql`limit ${limit}`}`;
}

const ROW = (sql: Sql) => sql`r.sheet_id as "sheetId", r.record`;

/** Few samples or one county are gathered first: the planner would look for them along the order. */
function driver(sql: Sql, filter: ResultFilter): Fragment {
  if (!gathersFirst(filter)) return sql``;
  const own = all(sql, [...populationConditions(sql, filter), ...speciesOf(sql, filter)]);
  return sql`with p as materialized (select * from surveillance.population p where ${own})`;
}

function gathersFirst({ sheetId, sample, county }: ResultFilter): boolean {
  return (
    sheetId === undefined && (county !== undefined || (sample?.trim().length ?? 0) >= ENOUGH_OF_A_NUMBER)
  );
}

/** Fewer characters may fit most samples. */
const ENOUGH_OF_A_NUMBER = 3;

type Fragment = PendingQuery<Row[]>;

function sources(sql: Sql, filter: ResultFilter): Fragment {
  if (filter.sheetId !== undefined) {
    return sql`intake.record r join surveillance.test t on t.key = r.test_key
      join surveillance.population p on p.id = t.population_id`;
  }
  const population = gathersFirst(filter) ? sql`p` : sql`surveillance.population p`;
  return sql`${population} join surveillance.test t on t.population_id = p.id`;
}

function conditions(sql: Sql, query: Selection): Fragment {
  const { filter, after } = query;
  const ofSheet =
    filter.sheetId === undefined
      ? []
      : [sql`r.sheet_id = ${filter.sheetId} and r.standing and r.kind is not null`];
  return all(sql, [
    ...ofSheet,
    ...(gathersFirst(filter) ? [] : [...populationConditions(sql, filter), ...speciesOf(sql, filter)]),
    ...(ofSheet.length > 0 || gathersFirst(filter) ? [] : seasonSpan(sql, filter)),
    ...testConditions(sql, filter),
    ...(after ? [beyond(sql, query, after)] : []),
  ]);
}

/**
 * A test knows its species too, and an index leads along the tests of a weed and group, or of a weed and result. It is said
 * once: said of both, the planner would take it for two conditions.
 */
function walksTests(filter: ResultFilter): boolean {
  const { sheetId, species, group, kind, result } = filter;
  const names = group !== undefined || result !== undefined || (kind !== undefined && kind !== 'tested');
  return species !== undefined && names && sheetId === undefined && !gathersFirst(filter);
}

function speciesOf(sql: Sql, filter: ResultFilter): Fragment[] {
  if (filter.species === undefined) return [];
  return [walksTests(filter) ? sql`t.species = ${filter.species}` : sql`p.species = ${filter.species}`];
}

/** Id of the population, by the table whose index is walked. */
function idOf(sql: Sql, filter: ResultFilter): Fragment {
  return walksTests(filter) ? sql`t.population_id` : sql`p.id`;
}

/** Seasons come in one after the other, so that they span a part of the ids: a walk along these begins and ends there. */
function seasonSpan(sql: Sql, filter: ResultFilter): Fragment[] {
  const { first, last } = filter;
  if (first === undefined && last === undefined) return [];
  const span = (end: 'min' | 'max') => sql`(
    select ${sql.unsafe(end)}(e.id) from surveillance.season s cross join lateral (
      select ${sql.unsafe(end)}(id) as id from surveillance.population where season = s.year
    ) e where s.year >= ${first ?? 0} and s.year <= ${last ?? 9999})`;
  const id = idOf(sql, filter);
  return [sql`${id} >= ${span('min')} and ${id} <= ${span('max')}`];
}

/** What the order is by, and whether it runs backwards. */
function orderOf(sql: Sql, { filter, order }: Pick<Selection, 'filter' | 'order'>) {
  if (filter.sheetId !== undefined) return { by: sql`r.record`, backwards: false };
  if (order === 'sample') return { by: sql`(upper(p.sample) collate "C")`, backwards: false };
  if (order === 'county') return { by: sql`p.county`, backwards: false };
  if (order === 'season') return { by: sql`p.season`, backwards: true };
  return { by: idOf(sql, filter), backwards: order === 'newest' };
}

function ordering(sql: Sql, query: Selection): Fragment {
  const { by, backwards } = orderOf(sql, query);
  return backwards ? sql`${by} desc, p.id desc, t.key desc` : sql`${by}, p.id, t.key`;
}

/** Rows after a place. The first comparison says what is known already, in words that an index has. */
function beyond(sql: Sql, query: Selection, { by: value, population, key }: ResultPlace): Fragment {
  const { by, backwards } = orderOf(sql, query);
  const id = idOf(sql, query.filter);
  return backwards
    ? sql`(${by}, ${id}) <= (${value}, ${population}) and (${by}, ${id}, t.key) < (${value}, ${population}, ${key}::uuid)`
    : sql`(${by}, ${id}) >= (${value}, ${population}) and (${by}, ${id}, t.key) > (${value}, ${population}, ${key}::uuid)`;
}

function placeOf({ by, population, key }: ResultRow & { by: string }): ResultPlace {
  return { by, population, key };
}
