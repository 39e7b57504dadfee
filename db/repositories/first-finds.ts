import { asc } from 'drizzle-orm';
import type { PendingQuery, Row, TransactionSql } from 'postgres';
import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { earlierFind } from '../schema/surveillance';
import type { KnownPopulation } from './facts';
import { addHistory } from './history';
import { lockImports } from './lock';

/** The first resistant result of a species × group (× active) in a state. */
export interface FirstFind {
  id: number;
  /** Two-digit FIPS code of the state. */
  stateFips: string;
  species: Eppo;
  group: Group;
  /** ISO common names joined by +; '' where the sheet names the group alone. */
  active: string;
  county: Fips;
  season: Season;
  laboratory: string;
  sample: string;
  treated: number | null;
  alive: number | null;
  /** ISO instant; null while it awaits its second run. */
  confirmedAt: string | null;
  confirmedBy: string | null;
  /** Resistant results that stay out of releases until it is confirmed, itself among them. */
  held: number;
}

/**
 * Whether a resistant test (`t` of population `p`) stays out of releases: no first find of its kind in its state was
 * confirmed, nor known before the programme. A result that names the group alone is known by any active of it.
 */
export const HELD = `(t.result = 'resistant'
  and not exists (select from surveillance.first_find f where f.state_fips = left(p.county, 2) and f.species = p.species
    and f.group_number = t.group_number and f.confirmed_at is not null
    and (f.active = array_to_string(t.actives, '+') or cardinality(t.actives) = 0))
  and not exists (select from surveillance.earlier_find e where left(e.county, 2) = left(p.county, 2)
    and e.species = p.species and e.group_number = t.group_number
    and (e.active = '' or e.active = array_to_string(t.actives, '+') or cardinality(t.actives) = 0)))`;

/**
 * Brings the list of first finds up to date after results were stored or changed: a find whose result is no longer
 * resistant goes, and the earliest result of a kind that its state has not seen comes in, awaiting its second run.
 *
 * @param sheetId look for new ones in this sheet alone (what it brought last can only add); else everywhere
 * @returns how many came in
 */
export async function updateFirstFinds(
  sql: TransactionSql,
  { sheetId }: { sheetId?: number } = {},
): Promise<number> {
  await sql`
    delete from surveillance.first_find f
    where not exists (select from surveillance.test t where t.key = f.test_key and t.result = 'resistant')`;
  // Results with their actives first: the group alone is known by any of them.
  const named = await addFirstFinds(sql, sql`cardinality(t.actives) > 0`, sheetId);
  return named + (await addFirstFinds(sql, sql`cardinality(t.actives) = 0`, sheetId));
}

async function addFirstFinds(
  sql: TransactionSql,
  which: PendingQuery<Row[]>,
  sheetId: number | undefined,
): Promise<number> {
  const added = await sql`
    insert into surveillance.first_find (state_fips, species, group_number, active, test_key)
    select distinct on (left(p.county, 2), p.species, t.group_number, t.actives)
      left(p.county, 2), p.species, t.group_number, array_to_string(t.actives, '+'), t.key
    from surveillance.test t join surveillance.population p on p.id = t.population_id
    where t.result = 'resistant' and ${which} ${sheetId === undefined ? sql`` : sql`and t.sheet_id = ${sheetId}`}
      and not exists (select from surveillance.first_find f where f.state_fips = left(p.county, 2)
        and f.species = p.species and f.group_number = t.group_number
        and (f.active = array_to_string(t.actives, '+') or cardinality(t.actives) = 0))
      and ${sql.unsafe(HELD)}
    order by left(p.county, 2), p.species, t.group_number, t.actives, p.season, p.collected nulls last, t.sheet_id, t.record
    on conflict do nothing`;
  return added.count;
}

/** All first finds, those that await their second run first. */
export async function listFirstFinds(db: StaffDatabase): Promise<FirstFind[]> {
  return db.$client<FirstFind[]>`
    select f.id, f.state_fips as "stateFips", f.species, f.group_number as "group", f.active, p.county, p.season,
      p.laboratory, p.sample, t.treated, t.alive,
      to_char(f.confirmed_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "confirmedAt", f.confirmed_by as "confirmedBy",
      (select count(*)::int from surveillance.test o join surveillance.population q on q.id = o.population_id
        where f.confirmed_at is null and coalesce(o.result, o.kind) = 'resistant' and left(q.county, 2) = f.state_fips
          and o.species = f.species and o.group_number = f.group_number and array_to_string(o.actives, '+') = f.active) as held
    from surveillance.first_find f
    join surveillance.test t on t.key = f.test_key
    join surveillance.population p on p.id = t.population_id
    order by f.confirmed_at is not null, f.state_fips, f.species, f.group_number, f.active`;
}

/** The populations whose results stay out of releases until these finds are confirmed, in order. */
export async function populationsHeldBy(
  db: StaffDatabase,
  ids: readonly number[],
): Promise<KnownPopulation[]> {
  return db.$client<KnownPopulation[]>`
    select distinct p.id::text as id, p.key::text as key, p.county, p.season, p.species
    from surveillance.first_find f
    join surveillance.population p on left(p.county, 2) = f.state_fips and p.species = f.species
    join surveillance.test t on t.population_id = p.id and t.group_number = f.group_number
    where f.id = any(${[...ids]}::int[]) and t.result = 'resistant'
      and (array_to_string(t.actives, '+') = f.active or cardinality(t.actives) = 0)
    order by 2`;
}

/** Who decides, and why. */
export interface Decision {
  by: string;
  why: string;
}

/**
 * Confirms first finds after their second run: from the next release on, results of their kind in their state count in
 * public. @throws UserError where there is no such find
 */
export async function confirmFirstFinds(
  db: StaffDatabase,
  { ids, by, why }: Decision & { ids: readonly number[] },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    for (const id of ids) {
      const [find] = await sql`
        update surveillance.first_find set confirmed_at = coalesce(confirmed_at, now()),
          confirmed_by = coalesce(confirmed_by, ${by}), note = ${why}
        where id = ${id} returning *`;
      if (!find) throw noFind(id);
      await addHistory(sql, { by, why, what: 'first find confirmed', after: find });
    }
  });
}

/** Takes a confirmation back. @throws UserError where there is no such find */
export async function reopenFirstFind(
  db: StaffDatabase,
  { id, by, why }: Decision & { id: number },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    const [find] = await sql`
      update surveillance.first_find set confirmed_at = null, confirmed_by = null, note = ${why}
      where id = ${id} returning *`;
    if (!find) throw noFind(id);
    await addHistory(sql, { by, why, what: 'first find reopened', after: find });
  });
}

/** A find known before the programme. */
export interface EarlierFind {
  species: Eppo;
  group: Group;
  /** ISO common name; '' where the source names the group alone. */
  active: string;
  season: Season;
  county: Fips;
  /** Where it is reported. */
  source: string;
}

/** Enters finds known before the programme; those that are there already stay. */
export async function addEarlierFinds(
  db: StaffDatabase,
  { finds, by }: { finds: readonly EarlierFind[]; by: string },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    for (const { species, group, active, season, county, source } of finds) {
      await sql`
        insert into surveillance.earlier_find (species, group_number, active, season, county, source)
        values (${species}, ${group}, ${active}, ${season}, ${county}, ${source}) on conflict do nothing`;
    }
    await sql`
      delete from surveillance.first_find f using surveillance.earlier_find e
      where f.confirmed_at is null and left(e.county, 2) = f.state_fips and e.species = f.species
        and e.group_number = f.group_number and (e.active in ('', f.active) or f.active = '')`;
    await addHistory(sql, { by, what: 'earlier find entered', after: finds });
  });
}

/** Takes an earlier find out again. @throws UserError where there is none of this number */
export async function removeEarlierFind(
  db: StaffDatabase,
  { id, by, why }: Decision & { id: number },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    const [find] = await sql`delete from surveillance.earlier_find where id = ${id} returning *`;
    if (!find) throw new UserError(`There is no earlier find ${id}.`, 'npm run finds lists them.');
    await addHistory(sql, { by, why, what: 'earlier find removed', before: find });
    await updateFirstFinds(sql);
  });
}

/** All finds known before the programme. */
export async function listEarlierFinds(db: StaffDatabase): Promise<(EarlierFind & { id: number })[]> {
  return db.select().from(earlierFind).orderBy(asc(earlierFind.id));
}

function noFind(id: number): UserError {
  return new UserError(`There is no first find ${id}.`, 'npm run finds lists them.');
}
