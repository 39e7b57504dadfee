import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { addErratum } from '@/db/repositories/errata';
import { saveRelease, withdrawRelease } from '@/db/repositories/releases';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import { cellChanges } from '@/lib/release/cell-changes';
import { releaseChanges } from '@/lib/release/release-changes';
import { type TestDatabase, testDatabase } from '../support/database';
import { runCommand } from '../support/run-command';
import { inventedRegion, inventedRelease } from './invented-release';
import { serve } from './support/site';

// Three releases, their notes and the error in the second are invented.
const NOTE = 'Two labels of a tray were exchanged: <b>use “release 3”</b> & no other.';
let database: TestDatabase;
let staff: StaffDatabase;
let site: Awaited<ReturnType<typeof serve>>;
beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  await saveRelease(staff, inventedRelease());
  await saveRelease(staff, laterRelease());
  await saveRelease(staff, laterRelease());
  await addErratum(staff, { release: 1, date: '2026-03-01', text: 'A name was mistyped.', by: 'desk' });
  await withdrawRelease(staff, { number: 2, note: NOTE, at: '2026-03-02T00:00:00Z' });
  site = await serve(database.publicUrl);
}, 300_000);
afterAll(async () => {
  await site?.close();
  await closeClient(staff);
  await database.drop();
});

/** The invented release without the season under way, which it told of as changes since release 1. */
function laterRelease() {
  const release = inventedRelease();
  const { draft } = release;
  const before = { number: 1, head: draft.head, cells: draft.cube.cells };
  const cells = draft.cube.cells.filter(({ unfinished }) => !unfinished);
  const cube = releasedCubeFromStore({ ...draft.cube, cells, openSeason: null });
  const later = { ...draft, cube };
  const changes = releaseChanges(later, before, cellChanges(before.cells, cells), null);
  return { ...release, draft: { ...later, head: { ...draft.head, openSeason: null, changes } } };
}

const get = (path: string) => fetch(site.url + path);
const textOf = async (path: string) => (await get(path)).text();
/** What a page says, without its markup and without the spaces that keep numbers together. */
const wordsOf = (html: string) =>
  html
    .replace(/<(script|style)[\s\S]*?<\/\1>/g, ' ')
    .replace(/<!-- -->/g, '')
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ');

describe('the pages of releases', () => {
  it('list all of them, newest first, the withdrawn one with its reason, escaped, and no errata of who wrote them', async () => {
    for (const [path, newest] of [
      ['/releases', 'the newest'],
      ['/es/releases', 'la más reciente'],
    ] as const) {
      const html = await textOf(path);
      expect([...html.matchAll(/<li class="release[^"]*">/g)]).toHaveLength(3);
      const order = [...html.matchAll(/href="(?:\/es)?\/releases\/(\d)">\D+\1/g)].map(([, number]) => number);
      expect(order).toEqual(['3', '2', '1']);
      expect(html).toContain(newest);
      expect(html).toContain('&lt;b&gt;use “release 3”&lt;/b&gt; &amp; no other.');
      expect(html).toContain('A name was mistyped.');
      expect(html).not.toContain('desk');
    }
  });

  it('count what changed: as many cells gone as the season under way had', async () => {
    const gone = inventedRelease().draft.cube.cells.filter(({ unfinished }) => unfinished).length;
    expect(gone).toBeGreaterThan(5);
    const english = wordsOf(await textOf('/releases/3'));
    expect(english).toContain(`${gone} are no longer there`);
    expect(english).toContain('Compared with release 1 of February 10, 2026');
    expect(wordsOf(await textOf('/es/releases/3'))).toContain(`${gone} ya no están`);
    expect(wordsOf(await textOf('/releases/1'))).toContain('was not counted');
  });

  it('tell of an older one that there is a newer, with its errata and its files', async () => {
    const html = await textOf('/releases/1');
    expect(html).toContain('href="/releases/3"');
    expect(html).toContain('There is a newer one, release 3.');
    expect(html).toContain('A name was mistyped.');
    expect(html).toMatch(/href="\/releases\/1\/fencerow-release-1-simulated-cells\.csv" download/);
    expect(await textOf('/releases/3')).not.toContain('There is a newer one');
  });

  it('describe each to programs, and how to cite it', async () => {
    const html = await textOf('/releases/3');
    const described = JSON.parse(/<script type="application\/ld\+json">(.*?)<\/script>/.exec(html)![1]!);
    expect(described).toMatchObject({
      '@type': 'Dataset',
      version: '3',
      datePublished: '2026-02-10',
      creator: { name: 'Invented screening cooperative' },
    });
    expect(described.distribution.length).toBeGreaterThan(10);
    expect(html).toContain('@misc{fencerow-release-3-simulated');
  });

  it('of a withdrawn one is a tombstone that is gone (410), says why, and serves nothing else of it', async () => {
    for (const path of ['/releases/2', '/es/releases/2']) {
      const response = await get(path);
      expect(response.status).toBe(410);
      const html = await response.text();
      expect(html).toContain('&lt;b&gt;use “release 3”&lt;/b&gt; &amp; no other.');
      expect(html).not.toContain('cells.csv');
      expect(html).toContain('releases/3');
    }
    expect((await get('/releases/2/fencerow-release-2-simulated-cells.csv')).status).toBe(410);
  });

  it.each(['9', '0', '-1', '1.5', '1e3', 'latest', '%3Cscript%3E', '9'.repeat(400)])(
    'of “%s”, which there is not, say so and list those that there are',
    async (asked) => {
      const response = await get(`/releases/${asked}`);
      expect(response.status).toBe(404);
      const html = await response.text();
      expect(html).toContain('There is no release');
      expect([...html.matchAll(/<li class="release[^"]*">/g)]).toHaveLength(3);
      expect(html).not.toContain('<script>%3C');
    },
  );

  it.each(['/', '/weeds', '/weeds/KCHSC', '/weeds/KCHSC?window=2019-2021', '/trends?place=KS'])(
    'are read at %s as their number in the address says, which leads to the same of the newest',
    async (path) => {
      const inRelease = (number: number) => `${path}${path.includes('?') ? '&' : '?'}release=${number}`;
      const older = await textOf(inRelease(1));
      expect(older).toContain('This is release 1. There is a newer one, release 3.');
      const note = /<p class="release-note"[\s\S]*?href="([^"]+)"/.exec(older)![1]!.replaceAll('&amp;', '&');
      expect(note).toContain('release=3');
      const newest = await textOf(note);
      expect(newest).not.toContain('There is a newer one');
      const heading = (html: string) => /<h1[\s\S]*?<\/h1>/.exec(html)![0];
      expect(heading(newest)).toBe(heading(older));
      // What an older page leads to of maps, trends and weeds is of the same release.
      const main = older.slice(older.indexOf('<main'), older.indexOf('</main>'));
      const links = [...main.matchAll(/href="(\/(?:\?|trends|weeds)[^"]*)"/g)].map(([, href]) => href!);
      expect(links.length).toBeGreaterThan(2);
      expect(links.filter((href) => !href.includes('release=1') && !href.includes('release=3'))).toEqual([]);
      for (const [asked, status] of [
        ['2', 410],
        ['9', 404],
        ['%3Cscript%3E', 404],
      ] as const) {
        expect((await get(inRelease(0).replace('release=0', `release=${asked}`))).status).toBe(status);
      }
    },
    60_000,
  );

  it('mark what the staff typed as of their language on a page of another', async () => {
    expect(await textOf('/es/releases')).toContain('<span lang="en">A name was mistyped.</span>');
  });
});

describe('the map of the site', () => {
  const listed = async () =>
    [...(await textOf('/sitemap.xml')).matchAll(/<loc>(.*?)<\/loc>/g)].map(([, address]) =>
      address!.replace(site.url, ''),
    );

  it('names each county, each weed and each release that stands, once and in each language', async () => {
    const paths = await listed();
    expect(new Set(paths).size).toBe(paths.length);
    const below = (folder: string) => paths.filter((path) => path.startsWith(`${folder}/`)).sort();
    expect(below('/counties')).toHaveLength(inventedRegion().counties.length);
    expect(below('/weeds')).toEqual(['/weeds/AMAPA', '/weeds/KCHSC']);
    expect(below('/releases')).toEqual(['/releases/1', '/releases/3']);
    const alternates = [...(await textOf('/sitemap.xml')).matchAll(/hreflang="(\w+)" href="(.*?)"/g)];
    for (const language of ['en', 'es']) {
      const own = alternates.filter(([, of]) => of === language);
      expect(own).toHaveLength(paths.length);
      expect(
        own.every(([, , address]) => address!.startsWith(`${site.url}/es`) === (language === 'es')),
      ).toBe(true);
    }
  });

  it('names every page that has one address, and nothing that is not there', async () => {
    const paths = await listed();
    const folder = join(import.meta.dirname, '../../app/[language]');
    const pages = readdirSync(folder).filter((name) => existsSync(join(folder, name, 'page.tsx')));
    // Pages for whoever has no signal, or followed an address that is too long or leads nowhere.
    const own = pages.filter((name) => !['offline', 'too-long', '[...elsewhere]'].includes(name));
    expect(own.length).toBeGreaterThan(7);
    expect(paths).toEqual(expect.arrayContaining(['/', ...own.map((name) => `/${name}`)]));
    const some = paths.filter((path, i) => !path.startsWith('/counties/') || i % 97 === 0);
    for (const path of some) expect([path, (await get(path)).status]).toEqual([path, 200]);
  });
});

describe('sites that one process serves in turn', () => {
  it('answer each from its own database', async () => {
    const other = await testDatabase();
    onTestFinished(() => other.drop());
    const both = [database.publicUrl, other.publicUrl];
    const run = await runCommand('../tests/app/support/sites-in-turn.ts', both, { FENCEROW_PUBLIC_URL: '' });
    expect(run.err).toBe('');
    // The framework says a line of its own.
    expect(run.out).toMatch(/(^|\n)200: 3\n200: 0\n$/);
  }, 300_000);
});
