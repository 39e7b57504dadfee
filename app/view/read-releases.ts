import {
  type ListedRelease,
  latestRelease,
  listReleases,
  releaseByNumber,
} from '@/db/repositories/published';
import type { ReleaseHead } from '@/lib/release/types';
import { publicDatabase } from '../database';
import { orUnreachable } from './or-unreachable';

/** All releases, newest first; `head` is that of the newest that stands. */
export interface ReleasesReport {
  releases: ListedRelease[];
  head: ReleaseHead | null;
}

export type ReleasesReading =
  | ({ state: 'ready' } & ReleasesReport)
  | { state: 'empty' }
  | { state: 'unreachable' };

export async function readReleases(): Promise<ReleasesReading> {
  return orUnreachable(async () => {
    const report = await readAll();
    return report.releases.length > 0 ? { state: 'ready' as const, ...report } : { state: 'empty' as const };
  });
}

export type ReleaseReading =
  | { state: 'ready'; head: ReleaseHead; listed: ListedRelease; newest: number }
  | ({ state: 'withdrawn'; listed: ListedRelease } & ReleasesReport)
  | ({ state: 'unknown' } & ReleasesReport)
  | { state: 'unreachable' };

/** Of an address whose release does not stand. */
export type NoReleaseReading = Extract<ReleaseReading, { state: 'withdrawn' | 'unknown' }>;

/** The release of an address: as it stands, as a tombstone, or those that there are. */
export async function readRelease(asked: string): Promise<ReleaseReading> {
  return orUnreachable(async () => {
    const all = await readAll();
    const listed = all.releases.find(({ number }) => String(number) === asked);
    if (!listed) return { state: 'unknown' as const, ...all };
    const head = await releaseByNumber(publicDatabase(), listed.number);
    if (!head) return { state: 'withdrawn' as const, listed, ...all };
    return { state: 'ready' as const, head, listed, newest: all.head?.number ?? head.number };
  });
}

async function readAll(): Promise<ReleasesReport> {
  const db = publicDatabase();
  const [releases, head] = await Promise.all([listReleases(db), latestRelease(db)]);
  return { releases, head };
}
