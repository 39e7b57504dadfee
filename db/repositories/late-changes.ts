import type { Waiting } from '@/lib/release/revision/types';
import type { StaffDatabase } from '../clients/staff';

/** Late changes that a release leaves as they were, by the newest draft or release. Private. */
export interface LateChanges {
  /** Number of the release, or that the draft would have. */
  number: number;
  /** Id of the draft, where there was one; its page says more. */
  draft: number | null;
  /** False for a draft that nobody published. */
  isReleased: boolean;
  /** ISO instant in UTC, to the microsecond, when it was made: what was stored later is not looked at yet. */
  madeAt: string;
  waiting: Waiting[];
}

/** What waits by the newest draft, or by the newest release that stands where that was made later; null before both. */
export async function lateChanges(db: StaffDatabase): Promise<LateChanges | null> {
  const [row] = await db.$client<LateChanges[]>`
    select number, draft, released as "isReleased",
      to_char(made_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"') as "madeAt", waiting
    from (
      select d.number, d.id::float8 as draft, d.state = 'published' as released, d.made_at, d.report->'waiting' as waiting
      from surveillance.release_draft d
      where d.state <> 'published' or exists (
        select from release.release r where r.number = d.number and r.withdrawn_at is null)
      union all
      select r.number, null, true, r.created_at, coalesce(b.waiting, '[]')
      from release.release r left join surveillance.release_basis b on b.release = r.number
      where r.withdrawn_at is null and not exists (
        select from surveillance.release_draft d where d.state = 'published' and d.number = r.number)
    ) made order by made_at desc limit 1`;
  return row ?? null;
}
