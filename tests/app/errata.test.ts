import { createHash } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { addErratum } from '@/db/repositories/errata';
import { saveRelease, withdrawRelease } from '@/db/repositories/releases';
import { type TestDatabase, testDatabase } from '../support/database';
import { inventedRelease } from './invented-release';
import { serve } from './support/site';

// The release, its error and whoever tells it are invented.
const TEXT = 'Counts of 2021 in two counties were exchanged: <use> “release 2” & no other.';
let database: TestDatabase;
let staff: StaffDatabase;
let site: Awaited<ReturnType<typeof serve>>;
let file: string;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  ({ file } = await addErratum(staff, {
    release: 1,
    date: '2026-03-01',
    text: TEXT,
    by: 'desk-of-the-programme',
  }));
  site = await serve(database.publicUrl);
}, 300_000);
afterAll(async () => {
  await site?.close();
  await closeClient(staff);
  await database.drop();
});
const get = (path: string) => fetch(site.url + path);

describe('an erratum on the site', () => {
  it('stands on the page in its own words, dated and escaped, with its file; who wrote it does not', async () => {
    const html = await (await get('/')).text();
    expect(html).toContain('Erratum 1, March 1, 2026');
    expect(html).toContain('exchanged: &lt;use&gt; “release 2” &amp; no other.');
    expect(html).toContain(`href="/releases/1/${file}"`);
    expect(html).not.toContain('desk-of-the-programme');
  });

  it('stands on each page that shows numbers of the release, before the first of them', async () => {
    for (const path of [
      '/weeds',
      '/weeds/KCHSC',
      '/trends',
      '/counties/31109',
      '/es/weeds/KCHSC',
      '/releases/1',
    ]) {
      const html = await (await get(path)).text();
      const [told, numbers] = [html.indexOf('“release 2”'), html.indexOf('<h1')];
      expect(told, path).toBeGreaterThan(0);
      expect(html, path).toContain(`href="/releases/1/${file}"`);
      if (/weeds|trends/.test(path)) expect(told, path).toBeLessThan(numbers);
    }
  });

  it('is served as a file that keeps for ever, and its sum is right', async () => {
    const response = await get(`/releases/1/${file}`);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toBe('text/markdown; charset=utf-8');
    expect(response.headers.get('cache-control')).toContain('immutable');
    const bytes = Buffer.from(await response.arrayBuffer());
    const sum = await (await get(`/releases/1/${file}.sha256`)).text();
    expect(sum).toBe(`${createHash('sha256').update(bytes).digest('hex')}  ${file}\n`);
    expect((await get(`/releases/1/${file.replace('-1.md', '-2.md')}`)).status).toBe(404);
  });

  it('is in the list of releases, which is asked for again each time, and stays there when the release is withdrawn', async () => {
    const response = await get('/releases.json');
    expect(response.headers.get('content-type')).toContain('application/json');
    expect(response.headers.get('cache-control')).toBe('no-cache');
    const { releases } = (await response.json()) as { releases: unknown[] };
    expect(releases).toMatchObject([
      { release: 1, standing: true, errata: [{ erratum: 1, text: TEXT, file }] },
    ]);
    await withdrawRelease(staff, { number: 1, note: 'Wrong throughout.', at: '2026-03-02T00:00:00Z' });
    const again = (await (await get('/releases.json')).json()) as { releases: unknown[] };
    expect(again.releases).toMatchObject([
      { release: 1, standing: false, withdrawn: { note: 'Wrong throughout.' }, errata: [{ erratum: 1 }] },
    ]);
    expect((await get(`/releases/1/${file}`)).status).toBe(410);
    expect(await (await get('/')).text()).not.toContain('Erratum');
  });
});
