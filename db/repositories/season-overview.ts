import type { Season } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** What is stored of a season, and what is not settled in it. Private. */
export interface SeasonLine {
  year: Season;
  /** ISO instant; null while it is open. */
  closedAt: string | null;
  populations: number;
  /** Populations with at least one screening result, and those of them whose sender agreed that they enter public counts. */
  screened: number;
  public: number;
  /** That sent those. */
  operations: number;
  /** Populations whose senders have not been told. */
  untold: number;
  /** Rows of sheets that wait for an answer and name the season. */
  questions: number;
  /** First finds of a state that await their second run. */
  finds: number;
}

/** All seasons with results or closed, the newest first. */
export async function seasonOverview(db: StaffDatabase): Promise<SeasonLine[]> {
  return db.$client<SeasonLine[]>`
    with counted as (
      select p.season, count(*)::int as populations,
        count(*) filter (where s.screened)::int as screened,
        count(*) filter (where s.screened and p.public_share)::int as public,
        count(distinct p.operation) filter (where s.screened and p.public_share)::int as operations,
        count(*) filter (where p.reported is null)::int as untold
      from surveillance.population p,
        lateral (select exists (select from surveillance.test t
          where t.population_id = p.id and t.result in ('resistant', 'some survivors', 'susceptible')) as screened) s
      group by p.season)
    select y.year, to_char(y.closed_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "closedAt",
      coalesce(c.populations, 0) as populations, coalesce(c.screened, 0) as screened, coalesce(c.public, 0) as public,
      coalesce(c.operations, 0) as operations, coalesce(c.untold, 0) as untold,
      (select count(*)::int from intake.question q join intake.record r using (sheet_id, record)
        where r.season = y.year and q.closed_at is null) as questions,
      (select count(*)::int from surveillance.first_find f join surveillance.test t on t.key = f.test_key
        join surveillance.population p on p.id = t.population_id
        where f.confirmed_at is null and p.season = y.year) as finds
    from surveillance.season y left join counted c on c.season = y.year
    order by y.year desc`;
}
