import { publicDatabase } from '@/app/database';
import { listReleases } from '@/db/repositories/published';
import { releaseList } from '@/lib/release/release-list';

/** All releases, newest first, with errata and withdrawals. It changes with each of them, so it is asked for again. */
export async function GET(): Promise<Response> {
  const releases = releaseList(await listReleases(publicDatabase()));
  return new Response(`${JSON.stringify({ releases }, null, 1)}\n`, {
    headers: { 'Content-Type': 'application/json', 'Cache-Control': 'no-cache' },
  });
}

export const dynamic = 'force-dynamic';
