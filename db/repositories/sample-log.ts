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
  /** Samples that have both days. */
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
  const rows = await sql<(SampleWays['days'][number] & Record<string, number | null>)[]>`
    select laboratory, count(*)::int as populations, ${counts(sql)}, ${medians(sql)}
    from (${ways(sql, season)}) way group by 1 order by 1`;
  const steps = rows.flatMap((row) =>
    STEPS.map(([from, to], step) => ({
      ...{ laboratory: row.laboratory, from, to },
      timed: row[`timed${step}`] ?? 0,
      medianDays: row[`median${step}`] ?? null,
    })).filter(({ timed }) => timed > 0),
  );
  return { days: [...rows], steps };
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
const STEPS: readonly (readonly [SampleDay, SampleDay])[] = [
  ...SAMPLE_DAYS.slice(1).map((to, at) => [SAMPLE_DAYS[at]!, to] as const),
  ['received', 'reported'],
];

/** How many samples have both days of each step, in their order, and the median of the days between. */
function medians(sql: Sql) {
  return STEPS.map(([from, to], step) => {
    const days = sql`${sql(to)} - ${sql(from)}`;
    return sql`count(*) filter (where ${days} >= 0)::int as ${sql(`timed${step}`)},
      (percentile_cont(0.5) within group (order by ${days}) filter (where ${days} >= 0))::float8 as ${sql(`median${step}`)}`;
  }).reduce((all, one) => sql`${all}, ${one}`);
}
