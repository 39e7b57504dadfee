import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Captured } from './captured-response';

/** Bytes of pages that are kept in memory at most. */
const MOST_BYTES = 48_000_000;

/** What an answer depends on beside its address: what the framework varies by, and by what name the reader came. */
const VARIES_BY = [
  ...['rsc', 'next-router-state-tree', 'next-router-prefetch', 'next-router-segment-prefetch', 'next-url'],
  ...['host', 'x-forwarded-host', 'x-forwarded-proto'],
];

/** Pages that speak of a failure, or whose making failed part of the way, are made anew for the next reader. */
const NOT_KEPT = /name="status" content="|"status\\?",\\?"content\\?":\\?"|:E\{\\?"digest/;

/**
 * Keeps public pages as they were made. They are made of releases alone, which never change, so a page holds as long as
 * the same releases stand; the least lately read give way.
 *
 * @param state tells which releases stand and what was noted to them; where it fails nothing is kept and none is given
 * @param mostBytes of bodies, together
 * @returns gives the page that is kept for a request and sets its headers, else makes it
 */
export function keepPages(state: () => Promise<string>, mostBytes = MOST_BYTES) {
  const kept = new Map<string, Captured>();
  let bytes = 0;
  let of = '';
  const forget = (key: string) => {
    bytes -= kept.get(key)?.body.length ?? 0;
    kept.delete(key);
  };
  const keep = (key: string, page: Captured) => {
    forget(key);
    kept.set(key, page);
    bytes += page.body.length;
    for (const oldest of kept.keys()) {
      if (bytes <= mostBytes) break;
      forget(oldest);
    }
  };
  return async (
    request: IncomingMessage,
    response: ServerResponse,
    make: () => Promise<Captured | null>,
  ): Promise<Captured | null> => {
    const now = await state().catch(() => null);
    if (now === null) return make();
    if (now !== of) {
      for (const key of [...kept.keys()]) forget(key);
      of = now;
    }
    const key = JSON.stringify([request.url, ...VARIES_BY.map((name) => request.headers[name])]);
    const found = kept.get(key);
    if (found) {
      keep(key, found);
      for (const [name, value] of Object.entries(found.headers)) response.setHeader(name, value!);
      return found;
    }
    const made = await make();
    const isSame = now === of && now === (await state().catch(() => null));
    if (made && isSame && isKeepable(made)) keep(key, made);
    return made;
  };
}

function isKeepable({ status, headers, body }: Captured): boolean {
  const isPage = /^text\/(html|x-component)/.test(String(headers['content-type'] ?? ''));
  return status === 200 && isPage && !headers['set-cookie'] && !NOT_KEPT.test(body.toString('utf8'));
}
