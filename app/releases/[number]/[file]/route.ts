import { chooseEncoding } from '@/app/choose-encoding';
import { publicDatabase } from '@/app/database';
import { noDocument } from '@/app/view/document-response';
import { missingRelease } from '@/app/view/missing-release';
import type { PublicDatabase } from '@/db/clients/public';
import { erratumFile, releaseFile } from '@/db/repositories/published';

/**
 * A file of a release, or an erratum beside it. It never changes, so it may be kept for ever; it leaves as the database holds it, under the
 * encoding that the client reads best, each with an ETag of its own. HEAD and 304 are the server's.
 */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ number: string; file: string }> },
): Promise<Response> {
  const { number, file: name } = await params;
  const accepted = request.headers.get('accept-encoding');
  const db = publicDatabase();
  if (!/^[1-9]\d{0,8}$/.test(number)) return missing(db, number);
  const file =
    (await releaseFile(db, Number(number), name, (available) => chooseEncoding(accepted, available))) ??
    (await erratumFile(db, Number(number), name));
  if (!file) return missing(db, number);
  const { encoding } = file;
  const headers = new Headers({
    'Content-Type': file.mediaType,
    'Content-Disposition': `attachment; filename="${file.name}"`,
    'Cache-Control': 'public, max-age=31536000, immutable',
    ETag: `"${file.sha256}${encoding ? `-${encoding}` : ''}"`,
    // The server turns this into Content-Encoding, which the framework would drop.
    'X-Body-Encoding': encoding ?? 'identity',
  });
  return new Response(new Uint8Array(file.bytes), { headers });
}

/** No such file; of a withdrawn release its tombstone, whatever file was asked for. */
async function missing(db: PublicDatabase, number: string): Promise<Response> {
  const otherwise = 'There is no such file in a release that stands.';
  const { status, words } = await missingRelease(db, number, otherwise);
  return noDocument(status, words);
}
