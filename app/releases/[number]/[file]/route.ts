import { publicDatabase } from '@/app/database';
import { releaseFile } from '@/db/repositories/published';

/** A file of a release. It never changes, so it may be kept for ever; it leaves as the database holds it, under brotli. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ number: string; file: string }> },
): Promise<Response> {
  const { number, file: name } = await params;
  if (!/^[1-9]\d{0,8}$/.test(number)) return missing();
  const file = await releaseFile(publicDatabase(), Number(number), name);
  if (!file) return missing();
  const brotli = /\bbr\b(?!\s*;\s*q=0(?:\.0*)?\b)/.test(request.headers.get('accept-encoding') ?? '');
  const headers = new Headers({
    'Content-Type': file.mediaType,
    'Content-Disposition': `attachment; filename="${file.name}"`,
    'Cache-Control': 'public, max-age=31536000, immutable',
    ETag: `"${file.sha256}${brotli ? '-br' : ''}"`,
    Vary: 'Accept-Encoding',
  });
  // The server turns this into Content-Encoding, which the framework would drop.
  if (brotli) headers.set('X-Body-Encoding', 'br');
  if (request.headers.get('if-none-match') === headers.get('ETag')) {
    return new Response(null, { status: 304, headers });
  }
  return new Response(new Uint8Array(brotli ? file.brotli : file.bytes), { headers });
}

function missing(): Response {
  return new Response('There is no such file in a release that stands.\n', {
    status: 404,
    headers: { 'Content-Type': 'text/plain; charset=utf-8' },
  });
}
