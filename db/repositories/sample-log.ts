import type { Sql } from 'postgres';
import type { Fips, Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** How many samples of a season and laboratory there are, and how far they are. */
export interface SampleSeason {
  season: Season;
  laboratory: string;
  populations: number;
  reported: number;
  /** Days from the day received to the day reported; null where no sample has both days. */
  medianDays: number | null;
  /** Samples that have both. */
  timed: number;
}

/** All seasons, the latest first, by laboratory. */
export async function sampleSeasons(db: StaffDatabase): Promise<SampleSeason[]> {
  return db.$client<SampleSeason[]>`
    select season, laboratory, count(*)::int as populations, count(reported)::int as reported,
      percentile_cont(0.5) within group (order by reported - received)::float8 as "medianDays",
      count(reported - received)::int as timed
    from (select season, laboratory, reported, ${day(db.$client, 'received')} as received from surveillance.population p) p
    group by 1, 2 order by 1 desc, 2`;
}

/** A way that samples take, and how long it took. */
export interface SampleStep {
  laboratory: string;
  from: SampleDay;
  to: SampleDay;
  /** Samples that have both days, and the half of them that were quicker than the median. */
  timed: number;
  medianDays: number | null;
}

/** Days on a sample's way that sheets may state, in their order. */
export const SAMPLE_DAYS = ['collected', 'received', 'sown', 'sprayed', 'scored', 'reported'] as const;
export type SampleDay = (typeof SAMPLE_DAYS)[number];

/** How many samples of a season have each day, by laboratory, and how long each step took. */
export interface SampleWays {
  days: ({ laboratory: string; populations: number } & Record<SampleDay, number>)[];
  steps: SampleStep[];
}

/** How far the samples of a season are, as far as sheets state days. */
export async function sampleWays(db: StaffDatabase, season: Season): Promise<SampleWays> {
  const sql = db.$client;
  const days = await sql<SampleWays['days']>`
    with way as (${ways(sql, season)})
    select laboratory, count(*)::int as populations, ${counts(sql)} from way group by 1 order by 1`;
  const steps = await sql<SampleStep[]>`
    with way as (${ways(sql, season)})
    select laboratory, step.from, step.to, count(step.days)::int as timed,
      percentile_cont(0.5) within group (order by step.days)::float8 as "medianDays"
    from way cross join lateral (values ${steppings(sql)}) as step ("from", "to", place, days)
    where step.days >= 0 group by 1, 2, 3, step.place order by laboratory, step.place`;
  return { days: [...days], steps: [...steps] };
}

/** A sample whose sender was not told its results yet. */
export interface WaitingSample {
  id: number;
  laboratory: string;
  sample: string;
  species: string;
  county: Fips;
  /** ISO days; null where no sheet states one. */
  received: string | null;
  sown: string | null;
  sprayed: string | null;
  scored: string | null;
  /** Tests of it. */
  tests: number;
}

/** Samples of a season that are not reported, those that were brought in first before; after the one of an id. */
export async function waitingSamples(
  db: StaffDatabase,
  { season, laboratory, after, limit }: { season: Season; laboratory?: string; after: number; limit: number },
): Promise<WaitingSample[]> {
  const sql = db.$client;
  return sql<WaitingSample[]>`
    with p as materialized (
      select * from surveillance.population where season = ${season} and reported is null and id > ${after}
        and (${laboratory ?? null}::text is null or laboratory = ${laboratory ?? null})
      order by id limit ${limit}
    )
    select p.id, p.laboratory, p.sample, p.species, p.county, ${day(sql, 'received')}::text as received,
      w.sown, w.sprayed, w.scored,
      (select count(*)::int from surveillance.test t where t.population_id = p.id) as tests
    from p left join lateral (
      select min(r.details->>'sown') as sown, min(r.details->>'sprayed') as sprayed, max(r.details->>'scored') as scored
      from intake.record r where r.population_key = p.key and r.standing and r.kind is not null
    ) w on true
    order by p.id`;
}

/** The days of each population of a season: the first sowing and spraying, the last scoring. */
function ways(sql: Sql, season: Season) {
  return sql`
    select p.laboratory, ${day(sql, 'collected')} as collected, ${day(sql, 'received')} as received,
      w.sown::date as sown, w.sprayed::date as sprayed, w.scored::date as scored, p.reported
    from surveillance.population p left join lateral (
      select min(r.details->>'sown') as sown, min(r.details->>'sprayed') as sprayed, max(r.details->>'scored') as scored
      from intake.record r where r.population_key = p.key and r.standing and r.kind is not null
    ) w on true
    where p.season = ${season}`;
}

/** A day of a population; null where only its month or year is known. */
function day(sql: Sql, column: 'collected' | 'received') {
  return sql`case when p.${sql(column)} ~ '^[0-9]{4}-[0-9]{2}-[0-9]{2}$' then p.${sql(column)}::date end`;
}

function counts(sql: Sql) {
  return SAMPLE_DAYS.map((name) => sql`count(${sql(name)})::int as ${sql(name)}`).reduce(
    (all, one) => sql`${all}, ${one}`,
  );
}

/** From each day to the next, and the whole way from the day received to the day reported. */
function steppings(sql: Sql) {
  const pairs: [SampleDay, SampleDay][] = [
    ...SAMPLE_DAYS.slice(1).map((to, at) => [SAMPLE_DAYS[at]!, to] as [SampleDay, SampleDay]),
    ['received', 'reported'],
  ];
  return pairs
    .map(
      ([from, to], place) =>
        sql`(${sql.unsafe(`'${from}'`)}, ${sql.unsafe(`'${to}'`)}, ${sql.unsafe(String(place))}, ${sql(to)} - ${sql(from)})`,
    )
    .reduce((all, one) => sql`${all}, ${one}`);
}
