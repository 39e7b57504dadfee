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

describe('no address holds what the files of the release do not:', () => {
  let texts: Map<string, string>;
  let lines: Record<string, string>[];
  beforeAll(async () => {
    const listed = await (await fetch(`${site.url}/releases/1/SHA256SUMS`)).text();
    const names = listed
      .trim()
      .split('\n')
      .map((line) => line.split('  ')[1]!);
    texts = new Map([['SHA256SUMS', listed]]);
    for (const name of names.filter((one) => !/\.(parquet|xlsx|zip)$/.test(one)))
      texts.set(name, await (await fetch(`${site.url}/releases/1/${name}`)).text());
    lines = parse(text('-cells.csv'), { columns: true });
  });
  const text = (end: string) => [...texts].find(([name]) => name.endsWith(end))![1];
  /** Different combinations of columns in the CSV, as texts. */
  const among = (columns: readonly string[], from = lines) =>
    new Set(from.map((line) => columns.map((column) => line[column]).join('|')));
  const told = (values: readonly unknown[]) => values.map((value) => String(value ?? '')).join('|');

  it('places are those of the cells', async () => {
    const places = await all('/releases/1/places');
    const known = among(['place_kind', 'place', 'place_name', 'state', 'district']);
    // A county that is always counted in an area has no line of its own; it stands in the table of counties.
    const counties = among(
      ['county', 'county_name', 'state'],
      parse(text('-county-places.csv'), { columns: true }),
    );
    const districts = among(['district']);
    for (const { place_kind, place, name, state, district } of places) {
      const isCell = known.has(told([place_kind, place, name, state, district]));
      const isCounty = counties.has(told([place, name, state])) && districts.has(told([district]));
      expect(isCell || (place_kind === 'county' && isCounty), told([place_kind, place])).toBe(true);
    }
  });

  it('states of the region are those of the cells, with the first digits of their counties’ codes', async () => {
    const states = among(
      ['place', 'place_name'],
      lines.filter((line) => line.place_kind === 'state'),
    );
    const counties = lines.filter((line) => line.place_kind === 'county');
    for (const { state, fips, name } of await all('/releases/1/regions')) {
      expect(states).toContain(told([state, name]));
      const own = counties.filter((line) => line.state === state);
      expect(own.length).toBeGreaterThan(0);
      for (const { place } of own) expect(place!.slice(0, 2)).toBe(fips);
    }
  });

  it('weeds and groups are those of the cells, their names those of the findings', async () => {
    const { speciesNames } = JSON.parse(text('-findings.json'));
    const pairs = among(['species', 'species_name', 'group']);
    for (const { species, name, scientific_name, groups } of await all('/releases/1/species')) {
      expect(name).toBe(speciesNames[species as string]);
      for (const group of groups as number[])
        expect(pairs).toContain(told([species, scientific_name, group]));
    }
    // The name of a group is the vocabulary's, the same in every release.
    for (const { group } of await all('/releases/1/groups'))
      expect(among(['group'])).toContain(String(group));
  });

  it('findings are those of the file, each whole', async () => {
    const { findings } = JSON.parse(text('-findings.json')) as { findings: object[] };
    const sorted = (list: readonly object[]) => list.map((one) => JSON.stringify(canonical(one))).sort();
    expect(sorted(await all('/releases/1/findings'))).toEqual(sorted(findings));
  });

  it('files are those of the list of sums, with the list and the ZIP', async () => {
    const sums = new Set(text('SHA256SUMS').trim().split('\n'));
    const others = (await all('/releases/1/files')).filter(
      ({ name, sha256 }) => !sums.has(`${sha256}  ${name}`),
    );
    expect(others.map(({ name }) => name).sort()).toEqual(['SHA256SUMS', 'fencerow-release-1-simulated.zip']);
  });

  it('the release is what its policy, findings, code book, tables and descriptor say', async () => {
    const head = (await json('/releases/1')) as Record<string, unknown>;
    const [policy, findings, descriptor] = ['-policy.json', '-findings.json', 'datapackage.json'].map((end) =>
      JSON.parse(text(end)),
    );
    const { number, note, licence, states, closedSeasons, openSeason, areas, pairs, files, ...rest } = head;
    const { region, programme, date, simulated, policy: rule, windows, seasonTables, furtherTables } = policy;
    const { caseDefinition, tests } = findings;
    expect(rest).toEqual({
      ...{ region, programme, date, simulated, policy: rule, windows, seasonTables, furtherTables },
      ...{ caseDefinition, tests },
    });
    expect(number).toBe(policy.release);
    expect(text('-code-book.md')).toContain(note);
    expect(licence ?? undefined).toBe(descriptor.licenses?.[0].name);
    expect(
      among(
        ['place'],
        lines.filter((line) => line.place_kind === 'state'),
      ),
    ).toEqual(new Set(states as string[]));
    const seasons = (is: string) =>
      among(
        ['first_season'],
        lines.filter((line) => line.first_season === line.last_season && line.unfinished === is),
      );
    expect(seasons('no')).toEqual(new Set((closedSeasons as number[]).map(String)));
    expect(seasons('yes')).toEqual(new Set(openSeason === null ? [] : [String(openSeason)]));
    expect(among(['species', 'group'])).toEqual(
      new Set(
        (pairs as { species: string; group: number }[]).map(({ species, group }) => told([species, group])),
      ),
    );
    const joined = among(
      ['species', 'first_season', 'place'],
      parse(text('-county-places.csv'), { columns: true }),
    );
    for (const one of areas as { species: string; first: number; areas: string[][] }[])
      for (const area of one.areas) expect(joined).toContain(told([one.species, one.first, area.join('+')]));
    const listed = await all('/releases/1/files');
    expect(
      (files as { name: string; sha256: string }[]).map(({ name, sha256 }) => told([name, sha256])),
    ).toEqual(listed.map(({ name, sha256 }) => told([name, sha256])));
  });
});

/** The same whatever the order of keys, which the database does not keep. */
function canonical(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(canonical);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(
    Object.entries(value)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, one]) => [key, canonical(one)]),
  );
}

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
