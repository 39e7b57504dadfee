import { and, desc, eq, isNull } from 'drizzle-orm';
import type { AuditReport, ReleasedCell } from '@/lib/disclosure/types';
import type { ReleaseDraft } from '@/lib/release/types';
import type { Pair } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { cell, releaseHead } from '../schema/release';
import { toCell } from './released-cell';

/** A release as the staff list it. */
export interface ReleaseLine {
  number: number;
  /** ISO day. */
  date: string;
  note: string;
  createdAt: string;
  /** ISO instant and reason; null while it stands. */
  withdrawnAt: string | null;
  withdrawalNote: string | null;
  errata: number;
  /** Who drafted and published it, where that happened on the staff side. */
  madeBy: string | null;
  decidedBy: string | null;
}

/** All releases, the newest first. */
export async function listReleases(db: StaffDatabase): Promise<ReleaseLine[]> {
  return db.$client<ReleaseLine[]>`
    select ${lineColumns(db)} from release.release r
    left join surveillance.release_draft d on d.number = r.number and d.state = 'published'
    order by r.number desc`;
}

/** A note beside a release. */
export interface ErratumLine {
  number: number;
  date: string;
  text: string;
}

/** A release with its head, audit and errata, or null. */
export async function readReleaseOverview(
  db: StaffDatabase,
  number: number,
): Promise<
  (ReleaseLine & { head: ReleaseDraft['head']; audit: AuditReport | null; notes: ErratumLine[] }) | null
> {
  const [row] = await db.$client<
    (ReleaseLine & { head: ReleaseDraft['head']; audit: AuditReport | null; notes: ErratumLine[] })[]
  >`
    select ${lineColumns(db)}, r.head, (select report from surveillance.release_audit a where a.release = r.number) as audit,
      (select coalesce(json_agg(json_build_object('number', e.number, 'date', e.date, 'text', e.text) order by e.number), '[]')
        from release.erratum e where e.release = r.number) as notes
    from release.release r
    left join surveillance.release_draft d on d.number = r.number and d.state = 'published'
    where r.number = ${number}`;
  return row ?? null;
}

/** The newest release that stands, with its cells of one pair; null before the first. */
export async function latestReleasedPair(
  db: StaffDatabase,
  { species, group }: Pair,
): Promise<{ number: number; head: ReleaseDraft['head']; cells: ReleasedCell[] } | null> {
  const [release] = await db
    .select({ number: releaseHead.number, head: releaseHead.head })
    .from(releaseHead)
    .where(isNull(releaseHead.withdrawnAt))
    .orderBy(desc(releaseHead.number))
    .limit(1);
  if (!release) return null;
  const rows = await db
    .select()
    .from(cell)
    .where(and(eq(cell.release, release.number), eq(cell.species, species), eq(cell.group, group)));
  return { ...release, cells: rows.map(toCell) };
}

/** The season that windows are counted from, as the first release fixed it; null before there is one. */
export async function earlierFirstSeason(db: StaffDatabase): Promise<number | null> {
  const [row] = await db.$client<{ first: number }[]>`
    select (head->>'firstSeason')::int as first from release.release order by number limit 1`;
  return row?.first ?? null;
}

function lineColumns(db: StaffDatabase) {
  const instant = (name: string) =>
    db.$client`to_char(${db.$client(name)} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`;
  return db.$client`
    r.number, to_char(r.date, 'YYYY-MM-DD') as date, r.head->>'note' as note, ${instant('r.created_at')} as "createdAt",
    ${instant('r.withdrawn_at')} as "withdrawnAt", r.withdrawal_note as "withdrawalNote",
    (select count(*)::int from release.erratum e where e.release = r.number) as errata,
    d.made_by as "madeBy", d.decided_by as "decidedBy"`;
}
