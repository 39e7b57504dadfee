import { z } from 'zod';
import type { PublicDatabase } from '@/db/clients/public';
import { latestRelease, listReleases, releaseByNumber } from '@/db/repositories/published';
import { csvText } from '@/lib/release/files/csv';
import type { ReleaseHead } from '@/lib/release/types';
import { regionOf } from '../region';
import { chooseMedia, type Media } from './choose-media';
import type { Context, Endpoint } from './endpoint';
import { ENDPOINTS } from './endpoints';
import { openApi } from './open-api';
import { Problem } from './problem';
import { readQuery } from './read-query';

export interface Answer {
  media: Media;
  text: string;
  /** True where the same address will always give the same. */
  isForEver: boolean;
}

export interface Asked {
  db: PublicDatabase;
  /** Parts of the path below `/api/v1`. */
  path: readonly string[];
  parameters: URLSearchParams;
  accept: string | null;
}

/**
 * Answers what is asked below `/api/v1` from released rows alone, so that no answer holds what the files do not.
 *
 * @throws Problem for an unknown path, release, parameter or page, a withdrawn release, a media type that there is not
 */
export async function answer({ db, path, parameters, accept }: Asked): Promise<Answer> {
  if (path.length === 0) return json(index(), accept, false);
  if (path.length === 1 && path[0] === 'openapi.json') return json(openApi(ENDPOINTS), accept, false);
  const endpoint = ENDPOINTS.find((one) => matches(one, path));
  if (!endpoint) throw noSuchPath(path);
  const query = readQuery(z.object(endpoint.query), parameters) as Record<string, unknown>;
  const isOfRelease = endpoint.path.includes('{release}');
  const head = isOfRelease ? await releaseOf(db, path[1]!) : undefined;
  const context: Context = head ? { db, head, region: regionOf(head) } : { db };
  const isForEver = isOfRelease && path[1] !== 'latest';
  if (endpoint.one) return json(await endpoint.one(context, query), accept, isForEver);
  const items = await endpoint.list!(context, query);
  const media = chooseMedia(accept, endpoint.csv ? ['application/json', 'text/csv'] : ['application/json']);
  const page = pageOf(items, query);
  if (media === 'text/csv') return { media, text: csv(endpoint, page.items), isForEver };
  return json({ ...(head && { release: head.number }), ...page }, accept, isForEver);
}

function json(body: object, accept: string | null, isForEver: boolean): Answer {
  const media = chooseMedia(accept, ['application/json']);
  return { media, text: `${JSON.stringify(body)}\n`, isForEver };
}

function csv({ name, csv: columns }: Endpoint, items: readonly Record<string, unknown>[]): string {
  return csvText({
    name,
    title: name,
    fields: columns!.map((column) => ({ name: column, meaning: '', type: 'string' })),
    key: [],
    rows: items.map((item) => columns!.map((column) => (item[column] ?? null) as string | number | null)),
  });
}

function matches({ path }: Endpoint, asked: readonly string[]): boolean {
  const parts = path.slice(1).split('/');
  return parts.length === asked.length && parts.every((part, i) => part === '{release}' || part === asked[i]);
}

async function releaseOf(db: PublicDatabase, asked: string): Promise<ReleaseHead> {
  if (asked !== 'latest' && !/^[1-9]\d{0,8}$/.test(asked))
    throw new Problem(
      404,
      'No such release',
      `“${asked.slice(0, 80)}” is no release: give its number, or “latest”.`,
    );
  const head = asked === 'latest' ? await latestRelease(db) : await releaseByNumber(db, Number(asked));
  if (head) return head;
  if (asked === 'latest') throw new Problem(404, 'No release', 'Nothing has been published yet.');
  const list = await listReleases(db);
  const tombstone = list.find(({ number }) => number === Number(asked));
  if (tombstone?.withdrawn)
    throw new Problem(
      410,
      'Withdrawn',
      `Release ${asked} was withdrawn on ${tombstone.withdrawn.at.slice(0, 10)}: ${tombstone.withdrawn.note || 'no reason is given'}.`,
    );
  const numbers = list.filter(({ withdrawn }) => !withdrawn).map(({ number }) => number);
  throw new Problem(
    404,
    'No such release',
    `There is no release ${asked}. There is: ${numbers.join(', ') || 'none'}.`,
  );
}

function pageOf(items: readonly Record<string, unknown>[], query: Record<string, unknown>) {
  const { page, limit } = query as { page: number; limit: number };
  const pages = Math.max(1, Math.ceil(items.length / limit));
  if (page > pages)
    throw new Problem(
      404,
      'Page past the end',
      `There are ${pages} pages of ${limit} items; page ${page} is past the end.`,
    );
  return { total: items.length, page, pages, limit, items: items.slice((page - 1) * limit, page * limit) };
}

function noSuchPath(path: readonly string[]): Problem {
  const there = ENDPOINTS.map(({ path: known }) => `/api/v1${known}`).join(', ');
  return new Problem(
    404,
    'No such address',
    `There is no /api/v1/${path.join('/').slice(0, 200)}. There is: ${there}.`,
  );
}

function index() {
  return {
    description: '/api/v1/openapi.json',
    to_try: '/api',
    addresses: ENDPOINTS.map(({ path, summary }) => ({ address: `/api/v1${path}`, summary })),
  };
}
