import type { Fips } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';

/** How many rows wait for an answer, by the county that they were read to lie in. Rows without one are left out. */
export async function questionsByCounty(db: StaffDatabase): Promise<Map<Fips, number>> {
  const rows = await db.$client<{ county: Fips; rows: number }[]>`
    select r.county, count(distinct (r.sheet_id, r.record))::int as rows
    from intake.question q join intake.record r using (sheet_id, record)
    where q.closed_at is null and r.county is not null group by r.county`;
  return new Map(rows.map(({ county, rows: count }) => [county, count]));
}
