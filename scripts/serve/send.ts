import { createHash } from 'node:crypto';
import type { IncomingMessage, ServerResponse } from 'node:http';
import { chooseEncoding } from '@/app/choose-encoding';
import { ENCODINGS, type Encoding, encode } from '@/db/encoding';
import type { Captured } from './captured-response';
import { CLOSED_POLICY, contentSecurityPolicy, SECURITY_HEADERS } from './security-headers';
import type { StaticFile } from './static-files';

/** How a route says how its body is encoded, `identity` too: the framework drops the standard header of its answer. */
const BODY_ENCODING = 'x-body-encoding';
/** A worker carries the policy of its own file. */
const WORKER_POLICY = "default-src 'none'; script-src 'self'; connect-src 'self'";
const PAGE_EFFORT = 5;
const KEPT_PAGES = 200;
const compressedPages = new Map<string, Promise<Buffer>>();

/**
 * Sends a page or route: security headers, ETag and 304, brotli or gzip. A page may ask for another status by
 * `<meta name="status" content="503">`, since a page of the framework cannot set one itself.
 */
export async function sendCaptured(request: IncomingMessage, response: ServerResponse, captured: Captured) {
  const { body, headers } = captured;
  const { type, isPage, isScript, status } = secure(response, captured);
  const encoded = headers[BODY_ENCODING];
  if (encoded) {
    response.removeHeader(BODY_ENCODING);
    // What the framework varies its pages by does not touch a file.
    response.setHeader('Vary', 'Accept-Encoding');
    if (isFresh(request, String(headers.etag))) return finish(request, response, 304, null);
    if (encoded !== 'identity') response.setHeader('Content-Encoding', String(encoded));
    return finish(request, response, status, body);
  }

  const encoding = encodingFor(request, type);
  const hash = createHash('sha256').update(body).digest('base64url');
  response.setHeader('Vary', [headers.vary, 'Accept-Encoding'].flat().filter(Boolean).join(', '));
  if (status === 200) {
    if (!headers.etag) response.setHeader('ETag', `"${hash}${encoding ? `-${encoding}` : ''}"`);
    if (isPage || isScript || type.startsWith('text/x-component'))
      response.setHeader('Cache-Control', 'no-cache');
    if (isFresh(request, String(response.getHeader('ETag')))) return finish(request, response, 304, null);
  } else response.setHeader('Cache-Control', 'no-store');
  if (!encoding) return finish(request, response, status, body);
  response.setHeader('Content-Encoding', encoding);
  return finish(request, response, status, await compressedPage(hash, body, encoding));
}

/** Sends a page or route of the staff side: as above, but nobody keeps it, and no search engine takes it up. */
export async function sendPrivate(request: IncomingMessage, response: ServerResponse, captured: Captured) {
  const { type, status } = secure(response, captured);
  setHeaders(response, { 'Cache-Control': 'no-store', 'X-Robots-Tag': 'noindex, nofollow' });
  response.removeHeader('ETag');
  const encoding = encodingFor(request, type);
  if (!encoding) return finish(request, response, status, captured.body);
  response.setHeader('Vary', [captured.headers.vary, 'Accept-Encoding'].flat().filter(Boolean).join(', '));
  response.setHeader('Content-Encoding', encoding);
  return finish(request, response, status, await encode(captured.body, encoding, PAGE_EFFORT));
}

/** Sets what an answer of the staff side carries that is sent while it is made. */
export function setPrivateHeaders(response: ServerResponse) {
  setHeaders(response, {
    ...SECURITY_HEADERS,
    'Content-Security-Policy': CLOSED_POLICY,
    'Cache-Control': 'no-store',
    'X-Robots-Tag': 'noindex, nofollow',
  });
}

/** Sets what every answer carries, by whether it is a page. */
function secure(response: ServerResponse, { body, headers, status }: Captured) {
  const type = String(headers['content-type'] ?? '');
  const isPage = type.startsWith('text/html');
  const isScript = /^(text|application)\/javascript/.test(type);
  const html = isPage ? body.toString('utf8') : '';
  setHeaders(response, {
    ...SECURITY_HEADERS,
    'Content-Security-Policy': isPage
      ? contentSecurityPolicy(html)
      : isScript
        ? WORKER_POLICY
        : CLOSED_POLICY,
  });
  response.removeHeader('Transfer-Encoding');
  const wished = isPage ? /<meta name="status" content="(\d{3})"/.exec(html)?.[1] : undefined;
  return { type, isPage, isScript, status: Number(wished ?? status) };
}

function encodingFor(request: IncomingMessage, type: string): Encoding | null {
  if (!/^(text\/|application\/(json|javascript|geo\+json|manifest)|image\/svg)/.test(type)) return null;
  return chooseEncoding(request.headers['accept-encoding'], ENCODINGS);
}

/** Sends a static file of the build. Its name changes with its content, so it may be kept for ever. */
export function sendStatic(request: IncomingMessage, response: ServerResponse, file: StaticFile) {
  const encoding = chooseEncoding(request.headers['accept-encoding'], ENCODINGS);
  const bytes = encoding && file.encoded[encoding];
  setHeaders(response, {
    ...SECURITY_HEADERS,
    'Content-Security-Policy': WORKER_POLICY,
    'Content-Type': file.type,
    'Cache-Control': 'public, max-age=31536000, immutable',
    Vary: 'Accept-Encoding',
  });
  if (encoding && bytes) response.setHeader('Content-Encoding', encoding);
  finish(request, response, 200, bytes ?? file.plain);
}

/** Sends a short answer in plain words. */
export function sendPlain(request: IncomingMessage, response: ServerResponse, status: number, words: string) {
  setHeaders(response, {
    ...SECURITY_HEADERS,
    'Content-Security-Policy': CLOSED_POLICY,
    'Content-Type': 'text/plain; charset=utf-8',
    'Cache-Control': 'no-store',
  });
  finish(request, response, status, Buffer.from(`${words}\n`));
}

function finish(request: IncomingMessage, response: ServerResponse, status: number, body: Buffer | null) {
  response.statusCode = status;
  if (body) response.setHeader('Content-Length', body.length);
  else response.removeHeader('Content-Length');
  response.end(request.method === 'HEAD' ? undefined : (body ?? undefined));
}

function setHeaders(response: ServerResponse, headers: Record<string, string>) {
  for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
}

function isFresh(request: IncomingMessage, etag: string): boolean {
  const known = request.headers['if-none-match'];
  if (!known) return false;
  return known.split(',').some((tag) => tag.trim().replace(/^W\//, '') === etag || tag.trim() === '*');
}

/** Pages differ by view and change only with a release: the last ones are kept compressed, by the hash of their body. */
function compressedPage(hash: string, body: Buffer, encoding: Encoding): Promise<Buffer> {
  const key = `${hash}-${encoding}`;
  const kept = compressedPages.get(key) ?? encode(body, encoding, PAGE_EFFORT);
  compressedPages.delete(key);
  compressedPages.set(key, kept);
  const oldest = compressedPages.keys().next().value;
  if (compressedPages.size > KEPT_PAGES && oldest) compressedPages.delete(oldest);
  return kept;
}
