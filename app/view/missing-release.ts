import type { PublicDatabase } from '@/db/clients/public';
import { listReleases } from '@/db/repositories/published';

/**
 * Why an address below `/releases/N` leads to nothing: the release was withdrawn, with the reason that was given (410), or there
 * is no such thing (404, in the caller's words).
 */
export async function missingRelease(
  db: PublicDatabase,
  number: string,
  otherwise: string,
): Promise<{ status: 404 | 410; words: string }> {
  const listed = /^[1-9]\d{0,8}$/.test(number)
    ? (await listReleases(db)).find((one) => one.number === Number(number))
    : undefined;
  if (!listed?.withdrawn) return { status: 404, words: otherwise };
  const { at, note } = listed.withdrawn;
  return { status: 410, words: `Release ${number} was withdrawn on ${at.slice(0, 10)}. ${note}`.trim() };
}
