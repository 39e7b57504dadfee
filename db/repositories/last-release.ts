import type { StaffDatabase } from '../clients/staff';

/** The newest release that stands, and how many changes waited when it was made; null before the first. */
export async function lastRelease(
  db: StaffDatabase,
): Promise<{ number: number; date: string; waiting: number } | null> {
  const [row] = await db.$client<{ number: number; date: string; waiting: number }[]>`
    select r.number, r.date::text as date, coalesce(jsonb_array_length(b.waiting), 0) as waiting
    from release.release r left join surveillance.release_basis b on b.release = r.number
    where r.withdrawn_at is null order by r.number desc limit 1`;
  return row ?? null;
}
