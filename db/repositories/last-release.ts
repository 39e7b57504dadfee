import type { StaffDatabase } from '../clients/staff';

/** The newest release that stands; null before the first. */
export async function lastRelease(db: StaffDatabase): Promise<{ number: number; date: string } | null> {
  const [row] = await db.$client<{ number: number; date: string }[]>`
    select number, date::text as date from release.release
    where withdrawn_at is null order by number desc limit 1`;
  return row ?? null;
}
