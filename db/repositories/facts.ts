import type { ScreeningTest } from '@/lib/cube/facts';
import type { Eppo, Fips, Pair } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { HELD } from './first-finds';

/** One test with its population: what a cube's facts are made of. Private. */
export interface TestRow extends ScreeningTest {
  rateMultiple: number | null;
  treated: number | null;
  alive: number | null;
  /** True for a resistant result whose first find in its state awaits its second run: it stays out of releases. */
  held: boolean;
}

/** All tests in the order of population, group, assay, active, rate. For more than a million use `streamTests`. */
export async function readTests(db: StaffDatabase): Promise<TestRow[]> {
  const tests: TestRow[] = [];
  for await (const batch of streamTests(db)) for (const row of batch) tests.push(row);
  return tests;
}

/** The same in batches of 20,000, at one state of the database, in memory for one batch. */
export async function* streamTests(db: StaffDatabase): AsyncGenerator<TestRow[]> {
  yield* selectTests(db, {}).cursor(20_000);
}

/** How many tests are stored. */
export async function countTests(db: StaffDatabase): Promise<number> {
  const [row] = await db.$client<{ tests: number }[]>`select count(*)::int as tests from surveillance.test`;
  return row!.tests;
}

/** The tests of populations from some counties alone. */
export async function testsOfCounties(db: StaffDatabase, counties: readonly Fips[]): Promise<TestRow[]> {
  return counties.length === 0 ? [] : selectTests(db, { counties: [...counties] });
}

/** The tests of one species alone. */
export async function testsOfSpecies(db: StaffDatabase, species: Eppo): Promise<TestRow[]> {
  return selectTests(db, { species });
}

/** A population as records and releases know it; its row, and so its id, may be gone when its key is not. */
export interface KnownPopulation {
  id: string;
  key: string;
  county: Fips;
  season: number;
  species: Eppo;
}

/** The population that a record is of, as it is read; null where it is of none. */
export async function populationOfRecord(
  db: StaffDatabase,
  { sheetId, record }: { sheetId: number; record: number },
): Promise<KnownPopulation | null> {
  const [row] = await db.$client<KnownPopulation[]>`
    select coalesce(p.id::text, r.population_key::text) as id, r.population_key::text as key, r.county, r.season, r.species
    from intake.record r left join surveillance.population p on p.key = r.population_key
    where r.sheet_id = ${sheetId} and r.record = ${record} and r.population_key is not null
      and r.county is not null and r.season is not null and r.species is not null`;
  return row ?? null;
}

/** The species × group pairs with a test, in order: each is looked up after the one before, in an index. */
export async function testedPairs(db: StaffDatabase): Promise<Pair[]> {
  return db.$client<Pair[]>`
    with recursive pair as (
      (select species, group_number from surveillance.test order by species, group_number limit 1)
      union all
      select later.species, later.group_number from pair cross join lateral (
        select species, group_number from surveillance.test
        where (species, group_number) > (pair.species, pair.group_number) order by species, group_number limit 1
      ) later
    )
    select species, group_number as "group" from pair order by 1, 2`;
}

/** How many populations came from each county, and which season is its newest. */
export async function populationsByCounty(
  db: StaffDatabase,
): Promise<{ county: Fips; populations: number; lastSeason: number }[]> {
  return db.$client<{ county: Fips; populations: number; lastSeason: number }[]>`
    select county, count(*)::int as populations, max(season) as "lastSeason"
    from surveillance.population group by county order by county`;
}

function selectTests(
  db: StaffDatabase,
  { counties = null, species = null }: { counties?: Fips[] | null; species?: Eppo | null },
) {
  return db.$client<TestRow[]>`
    select p.id::text as population, p.county, p.season, p.species, t.group_number as "group", t.assay, p.design,
      p.crop, p.funder, p.operation, p.public_share as "publicShare", t.actives,
      t.rate_multiple as "rateMultiple", t.treated, t.alive, coalesce(t.result, t.kind) as result,
      ${db.$client.unsafe(HELD)} as held
    from surveillance.test t
    join surveillance.population p on p.id = t.population_id
    where (${counties}::text[] is null or p.county = any(${counties}))
      and (${species}::text is null or p.species = ${species})
    order by t.population_id, t.group_number, t.assay, t.actives, t.rate_multiple nulls first, t.kind`;
}
