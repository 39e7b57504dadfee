import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { createServer, type Server } from 'node:http';
import { type AddressInfo, connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testDatabase } from '../support/database';
import { openSite, type Site, serve } from './support/site';

let site: Site;
beforeAll(async () => {
  site = await openSite();
});
afterAll(() => site.close());

const get = (path: string, init: RequestInit = {}) => fetch(site.url + path, { redirect: 'manual', ...init });
const policyOf = (response: Response) => response.headers.get('content-security-policy') ?? '';

describe('a page over the wire', () => {
  it('carries a policy with the hash of each of its inline scripts, and allows no inline style', async () => {
    const response = await get('/');
    const html = await response.text();
    const scripts = [
      ...html.matchAll(/<script>([\s\S]*?)<\/script>|<script id="[^"]*">([\s\S]*?)<\/script>/g),
    ];
    expect(scripts.length).toBeGreaterThan(1);
    for (const [, a, b] of scripts) {
      const hash = createHash('sha256')
        .update((a ?? b)!)
        .digest('base64');
      expect(policyOf(response)).toContain(`'sha256-${hash}'`);
    }
    expect(policyOf(response)).toMatch(/^default-src 'none'; script-src 'self' /);
    expect(policyOf(response)).not.toContain('unsafe');
    expect(html).not.toMatch(/ style="/);
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
    expect(response.headers.get('x-powered-by')).toBeNull();
  });

  it('is the same bytes each time, and 304 for who has them', async () => {
    const path = '/?species=KCHSC&group=9';
    const first = await get(path);
    const again = await get(path);
    expect(await again.text()).toBe(await first.text());
    const etag = first.headers.get('etag')!;
    expect(again.headers.get('etag')).toBe(etag);
    const known = await get(path, { headers: { 'If-None-Match': etag } });
    expect(known.status).toBe(304);
    expect(await known.text()).toBe('');
    const other = await get('/?species=KCHSC&group=27', { headers: { 'If-None-Match': etag } });
    expect(other.status).toBe(200);
  });

  it('comes compressed as the client can read it, with the same text inside', async () => {
    const plain = await (await get('/', { headers: { 'Accept-Encoding': 'identity' } })).text();
    for (const encoding of ['br', 'gzip']) {
      const response = await get('/', { headers: { 'Accept-Encoding': encoding } });
      expect(response.headers.get('content-encoding')).toBe(encoding);
      expect(await response.text()).toBe(plain);
    }
    const refused = await get('/', { headers: { 'Accept-Encoding': 'br;q=0' } });
    expect(refused.headers.get('content-encoding')).toBeNull();
  });

  it('answers HEAD as it answers GET, without the body', async () => {
    const [head, whole] = [await get('/', { method: 'HEAD' }), await get('/')];
    expect(head.status).toBe(200);
    expect(head.headers.get('etag')).toBe(whole.headers.get('etag'));
    expect(await head.text()).toBe('');
  });

  it('refuses what it has no use for in plain words', async () => {
    expect((await get('/', { method: 'POST', body: 'x=1' })).status).toBe(405);
    expect((await get(`/api/v1/releases?x=${'x'.repeat(100_000)}`)).status).toBe(414);
    expect((await get(`/?species=${'x'.repeat(200_000)}`)).status).toBe(431);
    expect((await get('/_next/static/../../package.json')).status).toBe(404);
    expect((await get('/_next/static/%2e%2e/%2e%2e/package.json')).status).toBe(404);
  });

  it('has no staff side, however its address is written', async () => {
    for (const path of [
      '/staff',
      '/staff/',
      '/staff/sign-in',
      '/%73taff/sign-in',
      '/%73taff/%E0%A4%A',
      '/staff/%E0%A4%A',
      '/STAFF',
      '//staff',
      '/staff?x=1',
    ]) {
      const response = await get(path);
      expect(response.status, path).toBe(404);
      expect(await response.text(), path).not.toContain('type="password"');
    }
  });

  it('has a page of its own, in its language, for an address of 100 kB', async () => {
    for (const [path, words] of [
      ['/', 'This address is too long'],
      ['/es', 'Esta dirección es demasiado larga'],
    ] as const) {
      const answer = await get(`${path}?species=${'x'.repeat(100_000)}`);
      expect([answer.status, answer.headers.get('content-type')]).toEqual([414, 'text/html; charset=utf-8']);
      const page = await answer.text();
      expect(page).toContain(`<h1>${words}</h1>`);
      expect(page).not.toContain('xxxxx');
    }
  });

  it('has a page of its own for an address that does not exist', async () => {
    const response = await get('/nowhere');
    expect(response.status).toBe(404);
    expect(await response.text()).toContain('There is no such page');
  });

  it('says politely what of an address it could not follow, and escapes it', async () => {
    const html = await (await get('/?species=%3Cscript%3Ealert(1)&group=9')).text();
    expect(html).toContain('This release has no weed');
    expect(html).not.toContain('<script>alert');
  });
});

describe('files', () => {
  it('of the build are compressed and may be kept for ever', async () => {
    const [path] = /\/_next\/static\/[^"]+\.js/.exec(await (await get('/')).text())!;
    const response = await get(path, { headers: { 'Accept-Encoding': 'br' } });
    expect(response.headers.get('content-encoding')).toBe('br');
    expect(response.headers.get('cache-control')).toContain('immutable');
  });

  it('of a release are the bytes whose sum the page shows, however they are encoded', async () => {
    const html = await (await get('/')).text();
    const files = [...html.matchAll(/href="(\/releases\/\d+\/[^"?]+)"/g)].map(([, path]) => path!);
    expect(files.length).toBeGreaterThan(1);
    for (const path of files) {
      const tags = new Set<string>();
      const codings = new Set<string | null>();
      for (const encoding of ['br', 'gzip', 'identity']) {
        const response = await get(path, { headers: { 'Accept-Encoding': encoding } });
        expect([encoding === 'identity' ? null : encoding, null]).toContain(
          response.headers.get('content-encoding'),
        );
        expect(response.headers.get('vary')).toBe('Accept-Encoding');
        expect(response.headers.get('cache-control')).toContain('immutable');
        codings.add(response.headers.get('content-encoding'));
        tags.add(response.headers.get('etag')!);
        const sum = createHash('sha256').update(new Uint8Array(await response.arrayBuffer()));
        expect(html).toContain(sum.digest('hex'));
      }
      expect(tags.size).toBe(codings.size);
      if (path.endsWith('-cells.csv')) expect(codings).toEqual(new Set(['br', 'gzip', null]));
    }
    expect((await get('/releases/1/nothing.csv')).status).toBe(404);
    expect((await get('/releases/999999/x.csv')).status).toBe(404);
    expect((await get('/releases/1%27/x.csv')).status).toBe(404);
  });

  it('of a release answer HEAD as GET, and 304 for who has that very encoding', async () => {
    const [, path] = /href="(\/releases\/\d+\/[^"]+-cells\.csv)"/.exec(await (await get('/')).text())!;
    for (const encoding of ['br', 'gzip', 'identity']) {
      const headers = { 'Accept-Encoding': encoding };
      const whole = await get(path!, { headers });
      const head = await get(path!, { headers, method: 'HEAD' });
      const tag = whole.headers.get('etag')!;
      for (const name of ['etag', 'content-encoding', 'content-type', 'vary', 'content-length'])
        expect(head.headers.get(name), name).toBe(whole.headers.get(name));
      expect(tag).toMatch(/^"/);
      expect(await head.text()).toBe('');
      for (const known of [tag, `"other", W/${tag}`, '*']) {
        const fresh = await get(path!, { headers: { ...headers, 'If-None-Match': known } });
        expect(fresh.status, known).toBe(304);
        expect(fresh.headers.get('etag')).toBe(tag);
        expect(fresh.headers.get('content-encoding')).toBeNull();
      }
      const other = { 'Accept-Encoding': encoding === 'br' ? 'gzip' : 'br', 'If-None-Match': tag };
      expect((await get(path!, { headers: other })).status).toBe(200);
    }
    const weighed = { 'Accept-Encoding': 'br;q=0.2, gzip;q=0.9' };
    expect((await get(path!, { headers: weighed })).headers.get('content-encoding')).toBe('gzip');
    const plain = { 'Accept-Encoding': 'identity, gzip;q=0.5' };
    expect((await get(path!, { headers: plain })).headers.get('content-encoding')).toBeNull();
  });

  it('of outlines hold places and no results', async () => {
    const number = /\/releases\/(\d+)\//.exec(await (await get('/')).text())![1];
    const response = await get(`/outlines/${number}.json`);
    expect(response.headers.get('etag')).toBeTruthy();
    const { features } = (await response.json()) as { features: { properties: object }[] };
    const names = new Set(features.flatMap(({ properties }) => Object.keys(properties)));
    expect([...names].sort()).toEqual(['kind', 'place']);
    expect((await get('/outlines/x.json')).status).toBe(404);
  });
});

describe('a connection that asks nothing', () => {
  it('is closed after a while without a word, which a browser would take for its next answer', async () => {
    const { hostname, port } = new URL(site.url);
    const socket = connect({ host: hostname, port: Number(port) });
    let heard = '';
    socket.on('data', (bytes) => {
      heard += String(bytes);
    });
    await new Promise((resolve) => socket.once('close', resolve));
    expect(heard).toBe('');
  }, 90_000);
});

describe('a site that cannot show a release', () => {
  it('says so before the first release, and names the command', async () => {
    const database = await testDatabase();
    const server = await serve(database.publicUrl);
    const response = await fetch(server.url);
    expect(response.status).toBe(200);
    expect(await response.text()).toMatch(/Nothing has been released yet.*npm run release/s);
    expect(await server.close()).toBe(0);
    await database.drop();
  });

  it('says so with status 503 when its database does not answer', async () => {
    const server = await serve('postgres://nobody@127.0.0.1:1/nothing');
    const response = await fetch(server.url);
    expect(response.status).toBe(503);
    expect(await response.text()).toContain('The numbers cannot be read just now');
    await server.close();
  });

  it('ends with a remedy when its port is taken or is none', async () => {
    const taken = await new Promise<Server>((resolve) => {
      const server = createServer().listen(0, '127.0.0.1', () => resolve(server));
    });
    const { port } = taken.address() as AddressInfo;
    const start = (value: string) =>
      spawnSync(process.execPath, ['--import', 'tsx', 'scripts/serve.ts', '--port', value], {
        encoding: 'utf8',
      });
    const refused = start(String(port));
    taken.close();
    expect(refused.status).toBe(1);
    expect(refused.stderr).toContain(
      `Port ${port} of 127.0.0.1 is in use by another program. Choose another`,
    );
    expect(start('high')).toMatchObject({ status: 1, stderr: expect.stringContaining('high is no port') });
  });
});
