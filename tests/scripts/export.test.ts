import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import {
  closeClient,
  type PublicDatabase,
  publicClient,
  type StaffDatabase,
  staffClient,
} from '@/db/clients';
import { latestRelease, releasedCells, releaseFile } from '@/db/repositories/published';
import { CAUTIONS, SIMULATED_NOTICE } from '@/lib/vocabulary/cautions';
import { runDemoStages } from '@/scripts/support/demo-stages';
import { checkTarget, replaceFolder } from '@/scripts/support/export-folder';
import { startSteps } from '@/scripts/support/steps';
import { openBrowser } from '../app/support/browser';
import { type TestDatabase, testDatabase } from '../support/database';
import { databaseEnvironment, runCommand } from '../support/run-command';

// A real release of the simulated scenario's small size.
let database: TestDatabase;
let staff: StaffDatabase;
let published: PublicDatabase;
let scratch: string;
let folder: string;
let browser: Browser;
const run = (...words: string[]) => runCommand('release.ts', words, databaseEnvironment(database));
const exported = (...words: string[]) => run('--export', folder, ...words);
const read = (name: string) => readFileSync(join(folder, name));
const list = () => JSON.parse(read('releases.json').toString('utf8'));
const sha256 = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex');
const sums = () => Object.fromEntries(readdirSync(folder).map((name) => [name, sha256(read(name))]));
const NOTE =
  'In 2021 samples of one county were put down to its neighbour. Do not use that season by county.';

beforeAll(async () => {
  database = await testDatabase();
  staff = staffClient(database.staffUrl);
  published = publicClient(database.publicUrl);
  scratch = mkdtempSync(join(tmpdir(), 'fencerow-export-'));
  folder = join(scratch, 'to', 'serve');
  const steps = startSteps(() => {});
  const sheets = join(scratch, 'sheets');
  await runDemoStages({ size: 'small', seed: 1, folder: sheets, staff, published, steps });
  browser = await openBrowser({ graphics: false });
}, 300_000);
afterAll(async () => {
  await browser?.close();
  await closeClient(staff);
  await closeClient(published);
  rmSync(scratch, { recursive: true, force: true });
  await database.drop();
});

describe('a release as a folder', () => {
  it('holds every file of the release as it is served, with right sums, and nothing that the list does not name', async () => {
    const { code, out, err } = await exported();
    expect(err).toContain('reading the');
    expect({ code, out }).toMatchObject({ code: 0, out: expect.stringContaining('Release 1 is written') });
    const head = (await latestRelease(published))!;
    for (const { name, sha256: sum } of head.files) {
      expect(sha256(read(name)), name).toBe(sum);
      expect(read(name)).toEqual((await releaseFile(published, 1, name))!.bytes);
    }
    const { files, programme, shown, releases } = list();
    expect({ programme, shown }).toEqual({ programme: head.programme, shown: 1 });
    expect(releases).toMatchObject([{ release: 1, standing: true, withdrawn: null, errata: [] }]);
    expect(readdirSync(folder).sort()).toEqual(
      ['releases.json', ...files.map(({ name }: { name: string }) => name)].sort(),
    );
    for (const file of files) expect(sha256(read(file.name)), file.name).toBe(file.sha256);
    for (const line of read('SHA256SUMS').toString('utf8').trimEnd().split('\n')) {
      const [sum, name] = line.split('  ') as [string, string];
      expect(sha256(read(name))).toBe(sum);
    }
  });

  it('can be computed anew by whoever has it', async () => {
    const { code, out } = await runCommand('reproduce.ts', [folder]);
    expect(out).toContain('findings follow from its cells');
    expect(code).toBe(0);
  });

  it('is the same bytes when it is written again, and leaves nothing beside it', async () => {
    const before = sums();
    expect(await exported()).toMatchObject({ code: 0 });
    expect(sums()).toEqual(before);
    expect(readdirSync(join(folder, '..'))).toEqual(['serve']);
  });

  it('replaces nothing that no export wrote, and says what is in the way', async () => {
    const foreign = join(scratch, 'foreign');
    mkdirSync(foreign);
    writeFileSync(join(foreign, 'letter.txt'), 'keep me');
    const refused = await run('--export', foreign);
    expect(refused).toMatchObject({ code: 1, err: expect.stringContaining('Choose an empty folder') });
    expect(readdirSync(foreign)).toEqual(['letter.txt']);

    writeFileSync(join(folder, 'letter.txt'), 'keep me');
    const mixed = await exported();
    expect(mixed).toMatchObject({ code: 1, err: expect.stringContaining('would be lost: letter.txt') });
    expect(read('letter.txt').toString()).toBe('keep me');
    rmSync(join(folder, 'letter.txt'));

    const other = join(scratch, 'other');
    mkdirSync(other);
    writeFileSync(
      join(other, 'releases.json'),
      JSON.stringify({ programme: 'Another', shown: 1, files: [] }),
    );
    expect(() => checkTarget(other, 'Ours')).toThrow('another programme, Another');
    const file = join(foreign, 'letter.txt');
    expect(() => checkTarget(file, 'Ours')).toThrow('is no folder');
    expect(() => replaceFolder(join(file, 'in'), [])).toThrow('a part of its path is a file');
  });

  it('stays as it was where the new one cannot be written, and nothing is left beside it', () => {
    const before = sums();
    const broken = [
      { name: 'index.html', bytes: Buffer.from('new') },
      { name: 'no/such/folder', bytes: Buffer.from('') },
    ];
    expect(() => replaceFolder(folder, broken)).toThrow('ENOENT');
    expect(sums()).toEqual(before);
    expect(readdirSync(join(folder, '..'))).toEqual(['serve']);
  });

  it('names the releases that stand when another is asked for', async () => {
    const { code, err } = await exported('--number', '7');
    expect(code).toBe(1);
    expect(err).toContain('There is no release 7. Name one that stands: 1.');
    expect(await exported('--number', 'x')).toMatchObject({
      code: 1,
      err: expect.stringContaining('N is a whole number'),
    });
  });
});

const TYPES: Record<string, string> = {
  '.html': 'text/html',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
};

/** A server of files as simple as there can be. */
async function serveFolder(): Promise<string> {
  const server: Server = createServer((request, response) => {
    const name = decodeURIComponent(request.url!.slice(1).split('?')[0]!) || 'index.html';
    const isThere = readdirSync(folder).includes(name);
    response.writeHead(isThere ? 200 : 404, {
      'Content-Type': TYPES[extname(name)] ?? 'application/octet-stream',
    });
    response.end(isThere ? read(name) : undefined);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  onTestFinished(() => void server.close());
  return `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
}

async function open(address: string, { script = true } = {}): Promise<{ page: Page; asked: string[] }> {
  const context = await browser.newContext({
    javaScriptEnabled: script,
    viewport: { width: 1280, height: 900 },
  });
  onTestFinished(() => context.close());
  const asked: string[] = [];
  context.on('request', (request) => asked.push(request.url()));
  const page = await context.newPage();
  await page.goto(address);
  return { page, asked };
}

describe('the page of a release in its folder', () => {
  const addresses = () => [pathToFileURL(join(folder, 'index.html')).href, null] as const;

  it.each([0, 1])(
    'opens without script from %i (0 the disk, 1 a plain server), styled, and asks for nothing elsewhere',
    async (i) => {
      const address = addresses()[i] ?? (await serveFolder());
      const { page, asked } = await open(address, { script: false });
      await page.locator('h1').waitFor();
      expect(await page.locator('.simulated').first().textContent()).toBe(SIMULATED_NOTICE);
      for (const caution of CAUTIONS) expect(await page.getByText(caution).count()).toBe(1);
      expect(await page.locator('.map-picture svg path').count()).toBeGreaterThan(20);
      expect((await page.locator('.map-picture').boundingBox())!.width).toBeGreaterThan(500);
      const within = new URL('.', address).href;
      expect(asked.filter((url) => !url.startsWith(within))).toEqual([]);
      expect(asked.some((url) => url.endsWith('/styles.css'))).toBe(true);
      expect(read('index.html').toString('utf8')).not.toMatch(/<script|<form| style="| on\w+="/);
    },
  );

  it('links to files of the folder alone, each of which is there', async () => {
    const { page } = await open(addresses()[0]);
    const links = await page.locator('a[href]').evaluateAll((all) => all.map((a) => a.getAttribute('href')!));
    const own = links.filter((href) => !/^https?:|^#/.test(href));
    expect(own.length).toBeGreaterThan(20);
    const names = readdirSync(folder);
    for (const href of own) expect(names, href).toContain(decodeURIComponent(href));
    // Away leads only the licence that the programme chose.
    expect(links.filter((href) => /^https?:/.test(href))).toHaveLength(1);
  });

  it.each(['light', 'dark'] as const)('has no fault that axe knows, in %s', async (colorScheme) => {
    const { page } = await open(await serveFolder());
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    await page.setViewportSize({ width: 320, height: 700 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  });

  it('says the numbers that the table of the release says', async () => {
    const { page } = await open(addresses()[0]);
    const cells = read(readdirSync(folder).find((name) => name.endsWith('-cells.csv'))!).toString('utf8');
    const rows = await page
      .locator('#numbers tbody tr')
      .evaluateAll((all) => all.map((tr) => [...tr.children].map((cell) => cell.textContent ?? '')));
    const known = rows.filter(([, , , tested]) => /^[1-9]/.test(tested ?? ''));
    expect(known.length).toBeGreaterThan(2);
    for (const [, , , tested, resistant] of known) expect(cells).toContain(`,${tested},${resistant},`);
  });
});

describe('npm run release -- erratum', () => {
  it('asks for names and numbers of people to be left out, and for words', async () => {
    const { code, err } = await run('erratum', '1', 'Call 402-555-0134 for the right counts.');
    expect({ code, err }).toMatchObject({ code: 1, err: expect.stringContaining('leave it out') });
    expect(await run('erratum', '9', NOTE)).toMatchObject({
      code: 1,
      err: expect.stringContaining('no release 9'),
    });
    expect(await run('erratum', '1', 'two', 'texts')).toMatchObject({
      code: 1,
      err: expect.stringContaining('quotation marks'),
    });
  });

  it('puts a note on the page, into the list and beside the files, which stay as they were', async () => {
    const before = sums();
    const { code, out } = await run(
      'erratum',
      '1',
      NOTE,
      '--by',
      'desk-of-the-programme',
      '--date',
      '2026-03-01',
    );
    expect({ code, out }).toMatchObject({
      code: 0,
      out: expect.stringContaining('Erratum 1 stands beside release 1'),
    });
    expect(await exported()).toMatchObject({ code: 0 });
    const [erratum] = list().releases[0].errata;
    expect(erratum).toMatchObject({ erratum: 1, date: '2026-03-01', text: NOTE });
    expect(sha256(read(erratum.file))).toBe(erratum.sha256);
    expect(read(`${erratum.file}.sha256`).toString('utf8')).toBe(`${erratum.sha256}  ${erratum.file}\n`);
    const { page } = await open(pathToFileURL(join(folder, 'index.html')).href);
    expect(await page.locator('.errata').textContent()).toContain(NOTE);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    const changed = Object.entries(sums()).filter(([name, sum]) => before[name] !== sum);
    expect(changed.map(([name]) => name).sort()).toEqual(
      [erratum.file, `${erratum.file}.sha256`, 'index.html', 'releases.json'].sort(),
    );
    for (const name of readdirSync(folder))
      expect(read(name).includes('desk-of-the-programme'), name).toBe(false);
  });
});

describe('npm run release -- consequences', () => {
  it('compares policies on what is stored, as a table and as a file, and releases nothing', async () => {
    const json = join(scratch, 'consequences.json');
    const { code, out } = await run('consequences', '--json', json);
    expect({ code, out }).toMatchObject({ code: 0, out: expect.stringContaining('county or area × window') });
    expect(out).toContain('Nothing was released');
    const { policies } = JSON.parse(readFileSync(json, 'utf8'));
    const [standing] = policies;
    const inRelease = (await releasedStates()).filter(({ status }) => status === 'published').length;
    expect(standing.all.find(({ level }: { level: string }) => level === 'state × season').published).toBe(
      inRelease,
    );
    expect((await latestRelease(published))!.number).toBe(1);
  });

  it('names the field of a policy file that is at fault', async () => {
    const path = join(scratch, 'policy.json');
    writeFileSync(path, '{"minimumOperations": 2}');
    expect(await run('consequences', '--policy', path)).toMatchObject({
      code: 1,
      err: expect.stringContaining('minimumOperations is 2; it must be a whole number of at least 3'),
    });
  });
});

/** State × season of whole plants, all designs, closed seasons, as the release says them. */
async function releasedStates() {
  const { pairs } = (await latestRelease(published))!;
  const cells = (await Promise.all(pairs.map((pair) => releasedCells(published, 1, pair)))).flat();
  return cells.filter(
    ({ placeKind, period, assay, design, unfinished }) =>
      placeKind === 'state' &&
      period.first === period.last &&
      assay === 'whole plant' &&
      design === null &&
      !unfinished,
  );
}

describe('npm run release -- loss', () => {
  it('holds the findings of a release against exact counts', async () => {
    const { code, out } = await run('loss');
    expect({ code, out }).toMatchObject({
      code: 0,
      out: expect.stringContaining(
        'Release 1 of 2026-02-10 beside exact counts of the samples that entered it',
      ),
    });
    expect(out).toMatch(/Clustering: \d+ of 34 maps have the same verdict/);
    expect(out).toMatch(/First finds by county: [1-9]/);
    expect(await run('loss', '--number', '9')).toMatchObject({
      code: 1,
      err: expect.stringContaining('Name one of these: 1.'),
    });
  });
});

describe('npm run release -- withdraw', () => {
  it('leaves a tombstone, and the release is written nowhere again', async () => {
    expect(await run('--date', '2026-03-01')).toMatchObject({ code: 0 });
    expect(
      await run('withdraw', '1', 'One county was wrong.', '--by', 'desk-of-the-programme'),
    ).toMatchObject({
      code: 0,
    });
    expect(await exported('--number', '1')).toMatchObject({
      code: 1,
      err: expect.stringContaining('was withdrawn on'),
    });
    expect(await run('erratum', '1', 'More.')).toMatchObject({
      code: 1,
      err: expect.stringContaining('was withdrawn on'),
    });
    expect(await exported()).toMatchObject({ code: 0, out: expect.stringContaining('Release 2') });
    expect(list().releases).toMatchObject([
      { release: 2, standing: true },
      { release: 1, standing: false, withdrawn: { note: 'One county was wrong.' }, errata: [{ erratum: 1 }] },
    ]);
  });
});
