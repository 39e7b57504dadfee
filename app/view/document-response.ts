import { createHash } from 'node:crypto';

/**
 * A document as a file. It is made anew from a release and its errata, so whoever keeps it asks whether it still stands: a
 * withdrawn release has none any more.
 */
export function documentResponse(
  bytes: Uint8Array,
  { name, mediaType }: { name: string; mediaType: string },
): Response {
  return new Response(new Uint8Array(bytes), {
    headers: {
      'Content-Type': mediaType,
      'Content-Disposition': `inline; filename="${name}"`,
      'Cache-Control': 'public, no-cache',
      ETag: `"${createHash('sha256').update(bytes).digest('hex')}"`,
    },
  });
}

/** Why there is no document, in plain words. */
export function noDocument(status: number, words: string): Response {
  const headers = { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' };
  return new Response(`${words}\n`, { status, headers });
}
