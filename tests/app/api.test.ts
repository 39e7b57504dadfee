import { createConfig, lintFromString } from '@redocly/openapi-core';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { chooseMedia } from '@/app/api/choose-media';
import { ENDPOINTS } from '@/app/api/endpoints';
import { openApi } from '@/app/api/open-api';
import { Problem } from '@/app/api/problem';
import { readQuery } from '@/app/api/read-query';
import { PROBLEM } from '@/app/api/schemas';
import { openSite, type Site } from './support/site';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const get = (path: string, init: RequestInit = {}) => fetch(`${site.url}/api/v1${path}`, init);
const json = async (path: string) => (await get(path)).json();

interface List {
  release?: number;
  total: number;
  page: number;
  pages: number;
  items: Record<string, unknown>[];
}

async function all(path: string): Promise<Record<string, unknown>[]> {
  const items = [];
  for (let page = 1; ; page += 1) {
    const list = (await json(`${path}?limit=1000&page=${page}`)) as List;
    items.push(...list.items);
    if (page >= list.pages) return items;
  }
}

describe('each address', () => {
  it.each(ENDPOINTS.map(({ path }) => path))('%s answers what its schema says', async (path) => {
    const { item, list } = ENDPOINTS.find((one) => one.path === path)!;
    const response = await get(path.replace('{release}', 'latest'));
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('application/json; charset=utf-8');
    expect(response.headers.get('access-control-allow-origin')).toBe('*');
    const body = await response.json();
    if (!list) return void item.parse(body);
    expect(body.total).toBeGreaterThan(0);
    for (const one of (body as List).items) item.parse(one);
  });

  it('says the same under the number of the newest release as under “latest”, and lets the former be kept', async () => {
    const [latest, numbered] = await Promise.all([
      get('/releases/latest/species'),
      get('/releases/1/species'),
    ]);
    expect(await numbered.json()).toEqual(await latest.json());
    expect(latest.headers.get('cache-control')).toBe('public, max-age=60');
    expect(numbered.headers.get('cache-control')).toBe('public, max-age=86400');
  });

  it('has a strong ETag, and 304 for who has it', async () => {
    const first = await get('/releases/1/groups');
    const etag = first.headers.get('etag')!;
    expect(etag).toMatch(/^"/);
    const again = await get('/releases/1/groups', { headers: { 'If-None-Match': etag } });
    expect(again.status).toBe(304);
    expect((await get('/releases/1/groups', { method: 'HEAD' })).headers.get('etag')).toBe(etag);
  });

  it('lets pages of other sites ask', async () => {
    const response = await get('/releases', { method: 'OPTIONS' });
    expect(response.status).toBe(204);
    expect(response.headers.get('access-control-allow-methods')).toContain('GET');
  });
});

describe('cells', () => {
  it('hold what the release’s CSV holds, line by line, and nothing else', async () => {
    const files = (await all('/releases/1/files')) as { name: string; address: string }[];
    const { address } = files.find(({ name }) => name.endsWith('-cells.csv'))!;
    const text = await (await fetch(site.url + address)).text();
    const lines = parse(text, { columns: true }) as Record<string, string>[];
    const cells = await all('/releases/1/cells');
    const asText = (value: unknown) => (value === null ? '' : String(value));
    const told = cells.map((cell) => Object.values(cell).map(asText).join('|'));
    expect(told.sort()).toEqual(lines.map((line) => Object.values(line).join('|')).sort());
  });

  it('as CSV are the same lines', async () => {
    const query = '?species=KCHSC&group=9&place_kind=county&limit=1000';
    const rows = (await json(`/releases/1/cells${query}`)) as List;
    const response = await get(`/releases/1/cells${query}`, { headers: { Accept: 'text/csv' } });
    expect(response.headers.get('content-type')).toBe('text/csv; charset=utf-8');
    const lines = parse(await response.text(), { columns: true }) as Record<string, string>[];
    expect(lines).toHaveLength(rows.items.length);
    expect(lines.map(({ place, status }) => [place, status])).toEqual(
      rows.items.map(({ place, status }) => [place, status]),
    );
  });

  it('are chosen by filters, each of which leaves only what it says', async () => {
    const every = await all('/releases/1/cells');
    for (const [name, value] of [
      ['place_kind', 'state'],
      ['status', 'withheld'],
      ['group', '9'],
      ['design', 'all'],
      ['assay', 'molecular'],
    ] as const) {
      const list = (await json(`/releases/1/cells?${name}=${encodeURIComponent(value)}&limit=1000`)) as List;
      expect(list.total).toBe(every.filter((cell) => String(cell[name]) === value).length);
      for (const cell of list.items) expect(String(cell[name])).toBe(value);
    }
  });

  it('tell nothing of a withheld place but that it is withheld', async () => {
    for (const cell of await all('/releases/1/cells')) {
      if (cell.status !== 'withheld') continue;
      for (const column of ['tested', 'resistant', 'some_survivors', 'share', 'share_low', 'share_high'])
        expect(cell[column]).toBeNull();
    }
  });
});

describe('what cannot be answered', () => {
  const problem = async (path: string, init: RequestInit = {}) => {
    const response = await get(path, init);
    expect(response.headers.get('content-type')).toBe('application/problem+json; charset=utf-8');
    expect(response.headers.get('access-control-allow-origin')).toBe('*');
    const body = PROBLEM.parse(await response.json());
    expect(body.status).toBe(response.status);
    return body;
  };

  it('is an unknown address, and the problem names those that there are', async () => {
    const { status, detail } = await problem('/nothing');
    expect(status).toBe(404);
    expect(detail).toContain('/api/v1/releases/{release}/cells');
  });

  it.each(['0', '999', 'newest', '%3Cscript%3E'])('is release %s', async (release) => {
    expect((await problem(`/releases/${release}/cells`)).status).toBe(404);
  });

  it('is an unknown, doubled or wrong parameter, each of which is named', async () => {
    const { status, parameters } = await problem('/releases/1/cells?colour=red&group=nine&page=0');
    expect(status).toBe(400);
    expect(parameters!.map(({ name }) => name).sort()).toEqual(['colour', 'group', 'page']);
    expect((await problem('/releases/1/cells?group=9&group=2')).detail).toContain('given twice');
    expect((await problem(`/releases/1/cells?x=${'a'.repeat(1_500)}`)).detail.length).toBeLessThan(1000);
  });

  it('is a page past the end', async () => {
    const { status, detail } = await problem('/releases/1/groups?page=99');
    expect(status).toBe(404);
    expect(detail).toContain('page 99 is past the end');
  });

  it('is a media type that there is not', async () => {
    expect((await problem('/releases/1/cells', { headers: { Accept: 'application/xml' } })).status).toBe(406);
    expect((await problem('/releases/1/findings', { headers: { Accept: 'text/csv' } })).status).toBe(406);
  });
});

describe('the description', () => {
  it('is OpenAPI 3.1 without a fault', async () => {
    const source = JSON.stringify(await json('/openapi.json'));
    const config = await createConfig({ extends: ['recommended'] });
    const found = await lintFromString({ source, config, absoluteRef: 'openapi.json' });
    expect(found.map(({ ruleId, message }) => `${ruleId}: ${message}`)).toEqual([]);
  });

  it('names every parameter that an address takes', () => {
    const { paths } = openApi(ENDPOINTS) as {
      paths: Record<string, { get: { parameters: { name: string; in: string }[] } }>;
    };
    for (const { path, query } of ENDPOINTS)
      expect(paths[path]!.get.parameters.filter((one) => one.in === 'query').map(({ name }) => name)).toEqual(
        Object.keys(query),
      );
  });

  it('comes with a page to try each address without a script', async () => {
    const response = await fetch(`${site.url}/api`);
    const html = await response.text();
    expect(response.status).toBe(200);
    for (const { path } of ENDPOINTS)
      expect(html).toContain(`action="/api/v1${path.replace('{release}', 'latest')}"`);
  });
});

describe('media types', () => {
  it.each([
    [null, 'application/json'],
    ['*/*', 'application/json'],
    ['text/csv', 'text/csv'],
    ['text/*;q=0.5, application/json;q=0.4', 'text/csv'],
    ['text/csv;q=0, */*', 'application/json'],
    ['text/html, application/xhtml+xml, */*;q=0.8', 'application/json'],
  ] as const)('of %s the best is %s', (accept, best) => {
    expect(chooseMedia(accept, ['application/json', 'text/csv'])).toBe(best);
  });

  it('are one of those at hand, or a problem, whatever is accepted', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (accept) => {
        try {
          expect(['application/json', 'text/csv']).toContain(
            chooseMedia(accept, ['application/json', 'text/csv']),
          );
        } catch (error) {
          expect(error).toBeInstanceOf(Problem);
        }
      }),
    );
  });
});

it('an empty field of a form asks for nothing', () => {
  const schema = z.object({ group: z.coerce.number().int().optional() });
  expect(readQuery(schema, new URLSearchParams('group='))).toEqual({});
});
