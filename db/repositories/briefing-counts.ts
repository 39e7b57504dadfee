import type { PendingQuery, Row, Sql } from 'postgres';
import type { Eppo, Fips, Group, Pair, Period, Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { HELD } from './first-finds';
import { RANK, rankOf } from './test-rank';
import { listOf, readWhole } from './whole-read';

const WORK_MEM = '64MB';

/** What the whole-plant tests that count offer for a briefing. Private. */
export interface BriefingScope {
  /** Weeds and groups with a result, in order, with how many. */
  pairs: (Pair & { results: number })[];
  /** In which anything was received, in order. */
  seasons: Season[];
  /** As the sheets spell them, in order. */
  crops: string[];
  funders: string[];
}

/** Which populations a briefing counts. */
export interface BriefingQuery {
  species: Eppo;
  counties: readonly Fips[];
  /** null: all. */
  crop: string | null;
  funder: string | null;
  window: Period;
}

/** Populations of one group, county and season. */
export interface GroupCount {
  group: Group;
  county: Fips;
  season: Season;
  received: number;
  testable: number;
  tested: number;
  resistant: number;
}

/** Populations of one crop and funder, of any group; null: not told. */
export interface SourceCount {
  crop: string | null;
  funder: string | null;
  received: number;
  tested: number;
  /** From which one was tested. */
  counties: number;
}

/** Populations that came in on one day and whose senders were told on one day, as ISO days; null: not known, or not yet. */
export interface TurnaroundCount {
  received: string | null;
  reported: string | null;
  populations: number;
}

/** Exact counts of the whole-plant tests of a weed. Private. */
export interface BriefingCounts {
  /** Of every group and season. */
  groups: GroupCount[];
  /** ISO common names of what was tested in the window, by group. */
  actives: { group: Group; actives: string[] }[];
  /** In the window, as `turnaround`. */
  sources: SourceCount[];
  turnaround: TurnaroundCount[];
}

/** What a briefing may be about. */
export async function briefingScope(db: StaffDatabase): Promise<BriefingScope> {
  return readWhole(db, WORK_MEM, async (sql) => {
    const counts = sql`t.assay = 'whole plant' and (t.population_id, t.group_number) not in (select id, group_number from held)`;
    const [row] = await sql<[BriefingScope]>`
      with ${held(sql, sql`t.assay = 'whole plant'`)},
      source as materialized (
        select distinct p.season, p.crop, p.funder from surveillance.population p
        where p.id in (select t.population_id from surveillance.test t where ${counts})
      )
      select ${listOf(
        sql,
        sql`select t.species, t.group_number as "group", count(*) as results from surveillance.test t
          where ${counts} and ${isTested(sql, sql`${sql.unsafe(RANK)}`)} group by 1, 2 order by t.species collate "C", 2`,
      )} as pairs,
      array(select distinct season from source order by 1) as seasons,
      array(select crop from (select distinct crop from source) s where crop is not null order by crop collate "C") as crops,
      array(select funder from (select distinct funder from source) s where funder is not null
        order by funder collate "C") as funders`;
    return row;
  });
}

/** Counts the populations of a weed, as `factsOf` and `aggregate` do, in the database. */
export async function countBriefing(
  db: StaffDatabase,
  { species, counties, crop, funder, window }: BriefingQuery,
): Promise<BriefingCounts> {
  return readWhole(db, WORK_MEM, async (sql) => {
    const asked = sql`t.species = ${species} and p.county = any(${[...counties]})
      and (${crop}::text is null or p.crop = ${crop}) and (${funder}::text is null or p.funder = ${funder})`;
    const inside = sql`season between ${window.first} and ${window.last}`;
    const [row] = await sql<[BriefingCounts]>`
      with ${held(sql, sql`t.assay = 'whole plant' and t.species = ${species}`)},
      whole as (
        select p.id, p.county, p.season, p.crop, p.funder, t.group_number, t.actives, ${sql.unsafe(RANK)} as rank
        from surveillance.test t join surveillance.population p on p.id = t.population_id and p.species = t.species
        where t.assay = 'whole plant' and ${asked}
          and (t.population_id, t.group_number) not in (select id, group_number from held)
      ),
      fact as (
        select id, group_number, county, season, crop, funder, min(rank) as rank from whole
        group by id, group_number, county, season, crop, funder
      )
      select ${listOf(
        sql,
        sql`select group_number as "group", county, season, count(*) as received,
          count(*) filter (where rank < ${rankOf('not testable')}) as testable,
          count(*) filter (where ${isTested(sql)}) as tested,
          count(*) filter (where rank = ${rankOf('resistant')}) as resistant
          from fact group by 1, 2, 3 order by 1, 2, 3`,
      )} as groups,
      ${listOf(
        sql,
        sql`select group_number as "group", array_agg(distinct active order by active) as actives
          from whole join unnest(actives) as active on true
          where ${inside} and ${isTested(sql)} group by 1 order by 1`,
      )} as actives,
      ${listOf(
        sql,
        sql`select crop, funder, count(distinct id) as received, count(distinct id) filter (where ${isTested(sql)}) as tested,
          count(distinct county) filter (where ${isTested(sql)}) as counties
          from fact where ${inside} group by 1, 2 order by crop collate "C", funder collate "C"`,
      )} as sources,
      ${listOf(
        sql,
        sql`select p.received, p.reported::text, count(*) as populations from surveillance.population p
          where p.id in (select id from fact where ${inside}) group by 1, 2 order by 1, 2`,
      )} as turnaround`;
    return row;
  });
}

/**
 * How many populations × group × assay stay out, because a first find among them awaits its second run: those that
 * `withoutHeld` leaves out.
 */
export async function countHeld(db: StaffDatabase): Promise<number> {
  return readWhole(db, WORK_MEM, async (sql) => {
    const [row] = await sql<
      [{ held: number }]
    >`with ${held(sql, sql`true`)} select count(*)::int as held from held`;
    return row.held;
  });
}

/**
 * `held`: populations, groups and assays with a test that is held. `HELD` is the same for all resistant tests of a state,
 * weed, group and actives, each of which has its first find in the list: so it is asked once for each of these.
 */
function held(sql: Sql, asked: PendingQuery<Row[]>): PendingQuery<Row[]> {
  return sql`
    kind as materialized (
      select p.county as state, t.* from (
        select state_fips as county, species, group_number, string_to_array(active, '+') as actives
        from surveillance.first_find where confirmed_at is null
      ) p cross join lateral (select 'resistant' as result, p.species, p.group_number, p.actives) t
      where ${sql.unsafe(HELD)}
    ),
    held as materialized (
      select distinct t.population_id as id, t.group_number, t.assay
      from surveillance.test t join surveillance.population p on p.id = t.population_id
      join kind k on k.state = left(p.county, 2) and k.species = t.species and k.group_number = t.group_number
        and k.actives = t.actives
      where t.result = 'resistant' and ${asked}
    )`;
}

function isTested(sql: Sql, rank: PendingQuery<Row[]> = sql`rank`): PendingQuery<Row[]> {
  return sql`${rank} <= ${rankOf('susceptible')}`;
}
