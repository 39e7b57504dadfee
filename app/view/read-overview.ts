import type { PublicDatabase } from '@/db/clients/public';
import { allFindings, chosenCells, listReleases } from '@/db/repositories/published';
import type { ReleaseHead } from '@/lib/release/types';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { type Overview, overview } from './overview';

/** The overview of a release. Releases never change, so it is counted once and kept with the pool that read it. */
export async function readOverview(head: ReleaseHead): Promise<Overview | null> {
  const db = publicDatabase();
  const kept = counted.get(db);
  const releases = await listReleases(db);
  const before = releases.find(({ number, withdrawn }) => number < head.number && withdrawn === null);
  const key = `${head.number}|${before?.number ?? ''}`;
  if (kept?.key === key) return kept.overview;
  const made = await count(db, head, before?.number ?? null);
  counted.set(db, { key, overview: made });
  return made;
}

const counted = new WeakMap<PublicDatabase, { key: string; overview: Overview | null }>();

async function count(db: PublicDatabase, head: ReleaseHead, before: number | null): Promise<Overview | null> {
  const [cells, findings, earlier] = await Promise.all([
    chosenCells(db, head.number, { placeKinds: ['region', 'area', 'county'] }),
    allFindings(db, head.number),
    before === null ? null : allFindings(db, before),
  ]);
  return overview({
    ...{ head, cells, findings },
    counties: regionOf(head).counties.length,
    before: before === null ? null : { number: before, findings: earlier! },
  });
}
