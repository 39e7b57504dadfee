import type { Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { addHistory } from './history';
import { lockImports } from './lock';

/** Whose senders were told their results. */
export interface Reported {
  season: Season;
  /** Only this laboratory's; all where it is left out. */
  laboratory?: string;
  /** Only these sample numbers; all of the season where they are left out. */
  samples?: readonly string[];
  /** ISO day on which they were told. */
  on: string;
  by: string;
}

/** Notes that results went out to their senders; samples that have a day already keep it. Returns how many were noted. */
export async function reportResults(
  db: StaffDatabase,
  { season, laboratory, samples, on, by }: Reported,
): Promise<number> {
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const noted = await sql`
      update surveillance.population set reported = ${on}
      where season = ${season} and reported is null
        and (${laboratory ?? null}::text is null or laboratory = ${laboratory ?? null})
        and (${samples === undefined} or upper(sample) = any(${(samples ?? []).map((sample) => sample.toUpperCase())}))`;
    await addHistory(sql, {
      by,
      what: 'results reported',
      after: { season, laboratory, samples, on, noted: noted.count },
    });
    return noted.count;
  });
}

/** Populations of a season whose senders have not been told yet, by season; seasons without one are left out. */
export async function unreported(db: StaffDatabase): Promise<{ season: Season; populations: number }[]> {
  return db.$client<{ season: Season; populations: number }[]>`
    select season, count(*)::int as populations from surveillance.population
    where reported is null group by season order by season`;
}
