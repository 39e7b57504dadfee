import type { Sql } from 'postgres';
import type { Assay, Design, Fips, Pair, Period, PlaceKey, Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { RANK, rankOf } from './test-rank';
import { listOf, readWhole } from './whole-read';

const WORK_MEM = '32MB';

/** Which populations of a weed and group are counted, and where. */
export interface PairQuery {
  pair: Pair;
  assay: Assay;
  /** null: all together, as with crop and funder. */
  design: Design | null;
  crop: string | null;
  funder: string | null;
  period: Period;
  /** The place of each county; counties without one have no senders. */
  placeOf: ReadonlyMap<Fips, PlaceKey>;
  /** Counties that are taken apart by design, assay, crop and funder. */
  chosen: readonly Fips[];
}

/** Populations of one county and season. `tested` = `resistant` + `someSurvivors` + susceptible. */
export interface SeasonCount {
  county: Fips;
  season: Season;
  received: number;
  tested: number;
  resistant: number;
  someSurvivors: number;
}

/** Who sent the tested populations of a place in the period. */
export interface SenderCount {
  place: PlaceKey;
  /** Distinct operations; samples without one: one unknown operation for each county. */
  operations: number;
  /** Tested populations of the operation that sent most. */
  largestOperation: number;
}

/** Tested populations of the chosen counties in the period that have one thing in common; `name` null: not told. */
export interface PartCount {
  of: 'design' | 'assay' | 'crop' | 'funder';
  name: string | null;
  tested: number;
  resistant: number;
}

/** Exact counts of a weed and group. Private. */
export interface PairCounts {
  /** Of every season, of what was asked. */
  seasons: SeasonCount[];
  senders: SenderCount[];
  /** Of every design, assay, crop and funder. */
  parts: PartCount[];
  /** What there is to choose from, in order. */
  crops: string[];
  funders: string[];
  /** First and last season in which the pair was screened at all; null where it never was. */
  span: Period | null;
}

/**
 * Counts the populations of a weed and group, as `factsOf` and `aggregate` do, in the database: a pair may have a hundred
 * thousand tests, of which a page shows sums.
 */
export async function countPair(db: StaffDatabase, query: PairQuery): Promise<PairCounts> {
  const [counted] = await readWhole(db, WORK_MEM, (sql) => selectCounts(sql, query));
  const { first, last, ...counts } = counted as Omit<PairCounts, 'span'> & {
    first: Season | null;
    last: Season;
  };
  return { ...counts, span: first === null ? null : { first, last } };
}

function selectCounts(sql: Sql, query: PairQuery) {
  const { pair, period, placeOf, chosen } = query;
  const asked = sql`assay = ${query.assay}
    and (${query.design}::text is null or design = ${query.design}) and (${query.crop}::text is null or crop = ${query.crop})
    and (${query.funder}::text is null or funder = ${query.funder})`;
  const tested = sql`rank <= ${rankOf('susceptible')} and season between ${period.first} and ${period.last}`;
  return sql`
    with fact as (
      select p.county, p.season, p.design, t.assay, p.crop, p.funder, p.operation, min(${sql.unsafe(RANK)}) as rank
      from surveillance.test t join surveillance.population p on p.id = t.population_id and p.species = t.species
      where t.species = ${pair.species} and t.group_number = ${pair.group}
      group by p.id, t.assay
    )
    select ${listOf(
      sql,
      sql`select county, season, count(*) as received, count(*) filter (where rank <= ${rankOf('susceptible')}) as tested,
        count(*) filter (where rank = ${rankOf('resistant')}) as resistant,
        count(*) filter (where rank = ${rankOf('some survivors')}) as "someSurvivors"
      from fact where ${asked} group by county, season order by county, season`,
    )} as seasons,
    ${listOf(
      sql,
      sql`select place, count(*) as operations, max(populations) as "largestOperation" from (
        select place, coalesce(operation, 'unknown operation of ' || county) as sender, count(*) as populations
        from fact join unnest(${[...placeOf.keys()]}::text[], ${[...placeOf.values()]}::text[]) as of (county, place) using (county)
        where ${asked} and ${tested} group by 1, 2
      ) sent group by place order by place`,
    )} as senders,
    ${listOf(
      sql,
      sql`select case when grouping(design) = 0 then 'design' when grouping(assay) = 0 then 'assay'
          when grouping(crop) = 0 then 'crop' else 'funder' end as of,
        coalesce(design, assay, crop, funder) as name, count(*) as tested,
        count(*) filter (where rank = ${rankOf('resistant')}) as resistant
      from fact where ${tested} and county = any(${[...chosen]})
      group by grouping sets (design, assay, crop, funder)`,
    )} as parts,
    array(select distinct crop from fact where crop is not null order by crop) as crops,
    array(select distinct funder from fact where funder is not null order by funder) as funders,
    (select min(season) from fact) as first, (select max(season) from fact) as last`;
}
