import type { PublicDatabase } from '@/db/clients/public';
import {
  type ListedRelease,
  latestRelease,
  releaseByNumber,
  releaseErrata,
} from '@/db/repositories/published';
import type { ReleaseHead } from '@/lib/release/types';
import type { Parameters } from './parse-view';
import { type NoReleaseReading, readRelease } from './read-releases';

/** A release that a page shows. */
export interface ShownRelease {
  head: ReleaseHead;
  /** Number of the newest release, where this one is older. */
  newer: number | null;
  /** What was found wrong with it since. */
  errata: ListedRelease['errata'];
}

/** Why a page shows no release. */
export type NoneShown =
  | { state: 'no release'; asked: string; reading: NoReleaseReading }
  | { state: 'empty' }
  | { state: 'unreachable' };

/** The release that an address names by `release=N`, else the newest; one without any weed is as good as none. */
export async function askedRelease(
  db: PublicDatabase,
  parameters: Parameters,
): Promise<({ state: 'ready' } & ShownRelease) | NoneShown> {
  const given = parameters.release;
  const asked = (Array.isArray(given) ? given[0] : given) ?? '';
  const latest = await latestRelease(db);
  if (asked === '' || asked === String(latest?.number)) return ready(db, latest, null);
  const head = /^[1-9]\d{0,8}$/.test(asked) ? await releaseByNumber(db, Number(asked)) : null;
  if (head) return ready(db, head, latest?.number ?? null);
  const reading = await readRelease(asked);
  if (reading.state === 'unreachable') return reading;
  return reading.state === 'ready' ? { state: 'empty' } : { state: 'no release', asked, reading };
}

async function ready(db: PublicDatabase, head: ReleaseHead | null, newer: number | null) {
  if (!head || head.pairs.length === 0) return { state: 'empty' as const };
  return { state: 'ready' as const, head, newer, errata: await releaseErrata(db, head.number) };
}

/** The release that links to other pages hold: an older one; from the newest they lead to whichever is newest then. */
export function heldRelease({ head, newer }: Pick<ShownRelease, 'head' | 'newer'>): number | undefined {
  return newer === null ? undefined : head.number;
}
