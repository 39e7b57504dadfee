import { latestRelease } from '@/db/repositories/published';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';
import { publicDatabase } from '../database';
import { regionOf } from '../region';
import { orUnreachable } from './or-unreachable';

export type HeadReading =
  | { state: 'ready'; head: ReleaseHead; region: Region }
  | { state: 'empty' }
  | { state: 'unreachable' };

/** What the newest release says of itself, and its region. */
export async function readHead(): Promise<HeadReading> {
  return orUnreachable(async () => {
    const head = await latestRelease(publicDatabase());
    return head ? { state: 'ready' as const, head, region: regionOf(head) } : { state: 'empty' as const };
  });
}
