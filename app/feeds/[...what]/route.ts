import { publicDatabase } from '@/app/database';
import { countyFeed, pairFeed, releasesFeed } from '@/app/feeds/make-feed';
import { isUnreachable } from '@/app/view/or-unreachable';
import { originOf } from '@/app/view/origin-of';

/** Atom feeds: `releases.atom`, `counties/31145.atom`, `KCHSC/27.atom`. */
export async function GET(
  request: Request,
  { params }: { params: Promise<{ what: string[] }> },
): Promise<Response> {
  const { what } = await params;
  const { origin, pathname } = new URL(request.url);
  try {
    const atom = await feedOf(what, {
      db: publicDatabase(),
      origin: originOf(request.headers, origin),
      path: pathname,
    });
    if (atom === null)
      return plain(
        404,
        'There is no such feed. There is /feeds/releases.atom; /feeds/counties/, a FIPS code and .atom; /feeds/, a species, /, a group and .atom.',
      );
    const headers = {
      'Content-Type': 'application/atom+xml; charset=utf-8',
      'Cache-Control': 'public, max-age=300',
    };
    return new Response(atom, { headers });
  } catch (error) {
    if (!isUnreachable(error)) throw error;
    return plain(503, 'The releases cannot be read at this moment. Try again in a minute.');
  }
}

type Order = Parameters<typeof releasesFeed>[0];

async function feedOf(what: readonly string[], order: Order): Promise<string | null> {
  const name = /^(.{1,20})\.atom$/.exec(what.at(-1)!)?.[1];
  if (name === undefined) return null;
  if (what.length === 1) return name === 'releases' ? releasesFeed(order) : null;
  if (what.length !== 2) return null;
  if (what[0] === 'counties') return countyFeed(order, name);
  return /^\d{1,2}$/.test(name) ? pairFeed(order, what[0]!, Number(name)) : null;
}

function plain(status: number, message: string): Response {
  const headers = { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' };
  return new Response(`${message}\n`, { status, headers });
}
