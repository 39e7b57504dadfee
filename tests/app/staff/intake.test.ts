import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished, vi } from 'vitest';
import { listActivity } from '@/db/repositories/activity';
import { readHistory } from '@/db/repositories/history';
import { listImports } from '@/db/repositories/imports';
import { laboratoryProfile } from '@/db/repositories/laboratories';
import { setProgramme } from '@/db/repositories/programme';
import { waitingByCode } from '@/db/repositories/question-desk';
import { readRecord } from '@/db/repositories/read-record';
import { listResults } from '@/db/repositories/results';
import { importSheet } from '@/lib/jobs/import-sheet';
import { programmeOf } from '@/lib/jobs/programme-of';
import { type RunningWorker, startWorker } from '@/lib/jobs/start-worker';
import { GOOD, sheetOf } from '../../lib/intake/judging';
import { workbookFile } from '../../lib/intake/workbook/workbook-file';
import { openBrowser } from '../support/browser';
import { openStaffSite, type StaffSite } from '../support/staff-site';

// The sheet is the invented one of tests/fixtures, but for two headings in the laboratory's own words.
const ROOT = `${import.meta.dirname}/../../..`;
const FIXTURE = readFileSync(`${ROOT}/tests/fixtures/intake/messy-submissions.csv`, 'utf8');
const { states, rows: expected } = JSON.parse(
  readFileSync(`${ROOT}/tests/fixtures/intake/messy-submissions.expected.json`, 'utf8'),
) as { states: string[]; rows: unknown[] };
const SHEET = FIXTURE.replace(',Weed,', ',Unkraut,').replace(',Crop,', ',Feldfrucht,');
const LABORATORY = 'Invented Laboratory';

// Each of these waits for pages, jobs and downloads, on a machine that may be busy.
vi.setConfig({ testTimeout: 240_000 });

const folder = mkdtempSync(join(tmpdir(), 'fencerow-handed-in-'));
let site: StaffSite;
let browser: Browser;
let worker: RunningWorker;
beforeAll(async () => {
  Object.assign(process.env, { FENCEROW_UPLOADS: join(folder, 'kept'), FENCEROW_LARGEST_UPLOAD: '1' });
  [site, browser] = await Promise.all([
    openStaffSite((db) =>
      setProgramme(db, {
        name: 'Invented programme',
        regionName: 'Invented region',
        ...{ states, simulated: false, laboratory: LABORATORY },
      }),
    ),
    openBrowser({ graphics: false }),
  ]);
  worker = await startWorker({ staffUrl: site.database.staffUrl, everyMs: 200 });
}, 600_000);
afterAll(async () => {
  await worker?.stop();
  await browser?.close();
  await site?.close();
  rmSync(folder, { recursive: true, force: true });
  delete process.env.FENCEROW_UPLOADS;
  delete process.env.FENCEROW_LARGEST_UPLOAD;
});

/** A browser in which the analyst is signed in. */
async function analyst(options: Parameters<Browser['newContext']>[0] = {}): Promise<BrowserContext> {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(60_000);
  onTestFinished(() => context.close());
  await signInto(context);
  return context;
}

async function signInto(context: BrowserContext): Promise<void> {
  const [name, value] = (await site.cookieOf(site.people.analyst)).split(/=(.*)/s);
  await context.addCookies([{ name: name!, value: value!, url: site.url }]);
}

const path = (page: Page) => page.url().slice(site.url.length);

/** Drops a file on the form, as a hand does it, and sends it. */
async function dropSheet(page: Page, name: string, content: string | Uint8Array): Promise<void> {
  await page.goto(`${site.url}/staff/sheets`);
  const data = await page.evaluateHandle(
    ({ fileName, base64 }) => {
      const transfer = new DataTransfer();
      const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      // A desktop names the kind by the ending, and often none at all.
      transfer.items.add(new File([bytes], fileName));
      return transfer;
    },
    { fileName: name, base64: Buffer.from(content).toString('base64') },
  );
  await page.getByRole('form', { name: 'Hand in a sheet' }).dispatchEvent('drop', { dataTransfer: data });
  await page.getByRole('button', { name: 'Hand in' }).click();
}

async function axeFinds(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}

let address = '';

describe('a sheet', () => {
  it('that is too large is refused with a word, and nothing is kept', async () => {
    const page = await (await analyst()).newPage();
    await dropSheet(page, 'large.csv', `${SHEET}${' '.repeat(1_200_000)}`);
    await page.getByText('larger than 1.0 MB').waitFor();
    // A browser without script sends it all the same.
    const body = new FormData();
    body.set('laboratory', LABORATORY);
    body.set('sheet', new File(['x'.repeat(3_000_000)], 'large.csv'));
    const cookie = await site.cookieOf(site.people.analyst);
    const url = `${site.url}/staff/sheets/hand-in`;
    const answer = await fetch(url, { method: 'POST', headers: { cookie, origin: site.url }, body });
    expect([answer.status, await answer.text()]).toEqual([422, expect.stringContaining('larger than 1 MB')]);
    expect((await site.db.$client`select from intake.upload`).count).toBe(0);
    expect(readdirSync(join(folder, 'kept'))).toEqual([]);
  });

  it('is dropped, and what is chosen for its headings is there again after the browser broke down', async () => {
    const first = await (await analyst()).newPage();
    await dropSheet(first, 'spring.csv', SHEET);
    await first.waitForURL(/handed-in/);
    address = path(first);
    await first.getByText('Needed and not there: Weed.').waitFor();
    await first.getByLabel('Unkraut (not known)').selectOption('weed');
    await first.getByText('Kept.').waitFor();
    await first.context().close();

    const second = await (await analyst({ viewport: { width: 360, height: 800 } })).newPage();
    await second.goto(site.url + address);
    expect(await second.getByLabel('Unkraut').inputValue()).toBe('weed');
    expect(await second.getByText('Needed and not there').count()).toBe(0);
    expect(await axeFinds(second)).toEqual([]);
    expect(await second.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
  });

  it('is tried: what would come of it is told row by row, and nothing is stored', async () => {
    const page = await (await analyst()).newPage();
    await page.goto(site.url + address);
    await page.getByLabel('Feldfrucht (not known)').selectOption('crop');
    await page.getByRole('button', { name: 'Try it' }).click();
    await page.getByText(/\d+ rows accepted, \d+ in question, \d+ refused/).waitFor();
    expect(await listImports(site.db)).toEqual([]);
    const [accepted, inQuestion, refused] = await counts(page);
    expect(accepted! + inQuestion! + refused!).toBe(expected.length);
    await page.getByText('Row by row').click();
    const rows = page.getByRole('table').last().getByRole('row');
    expect((await rows.count()) - 1).toBeGreaterThanOrEqual(inQuestion! + refused!);
    expect(await axeFinds(page)).toEqual([]);
  });

  it('is imported although the session ends meanwhile; its headings are remembered', async () => {
    const context = await analyst();
    const page = await context.newPage();
    await page.goto(site.url + address);
    const [accepted, inQuestion, refused] = await counts(page);
    await page.getByRole('button', { name: 'Import', exact: true }).click();
    await page.getByRole('heading', { name: '1. What the headings mean' }).waitFor({ state: 'detached' });
    await site.db.$client`delete from access.session`;
    await page.goto(site.url + address);
    expect(path(page)).toContain('/staff/sign-in?next=');
    await signInto(context);
    await page.goto(site.url + address);
    const link = page.getByRole('link', { name: /See import \d+/ });
    await link.waitFor();
    expect(await listImports(site.db)).toMatchObject([
      { fileName: 'spring.csv', importedBy: 'Invented analyst', accepted, inQuestion, refused },
    ]);
    expect((await laboratoryProfile(site.db, LABORATORY)).headings).toMatchObject({
      unkraut: 'weed',
      feldfrucht: 'crop',
    });
    await link.click();
    await page.getByRole('heading', { name: /^Import \d+$/ }).waitFor();
    expect(await axeFinds(page)).toEqual([]);
  });

  it('whose very bytes are stored already would change nothing, which its dry run says', async () => {
    const page = await (await analyst()).newPage();
    await dropSheet(page, 'again.csv', SHEET);
    await page.waitForURL(/handed-in/);
    expect(await page.getByLabel(/not known/).count()).toBe(0);
    await page.getByRole('button', { name: 'Try it' }).click();
    await page.getByText('stored before').waitFor();
    expect(await page.getByRole('button', { name: 'Import', exact: true }).count()).toBe(0);
    await page.getByRole('button', { name: 'Put this file away' }).click();
    await page.waitForURL(`${site.url}/staff/sheets`);
  });
});

describe('a workbook', () => {
  it('is dropped, tried and imported as a sheet is, its dates read as days', async () => {
    const headings = Object.keys(GOOD);
    const dated = (serial: number) => ({ xml: `<c s="1"><v>${serial}</v></c>` });
    // 46279 and 46286 are 14 and 21 September 2026 in the days that workbooks count.
    const rows = ['W-1', 'W-2', 'W-3'].map((sample) =>
      headings.map((heading) => {
        if (heading === 'Sample #') return sample;
        if (heading === 'Date collected') return dated(46_279);
        return heading === "Date rec'd" ? dated(46_286) : GOOD[heading]!;
      }),
    );
    const page = await (await analyst()).newPage();
    await dropSheet(page, 'autumn.xlsx', workbookFile({ sheets: [{ rows: [headings, ...rows] }] }));
    await page.waitForURL(/handed-in/);
    await page.getByRole('button', { name: 'Try it' }).click();
    await page.getByText('3 rows accepted, 0 in question, 0 refused').waitFor();
    await page.getByRole('button', { name: 'Import', exact: true }).click();
    await page.getByRole('link', { name: /See import \d+/ }).waitFor();
    expect((await listImports(site.db))[0]).toMatchObject({ fileName: 'autumn.xlsx', accepted: 3 });
    const { rows: stored } = await listResults(site.db, {
      ...{ filter: { sample: 'W-2' }, order: 'newest', after: null, limit: 9 },
    });
    expect(stored).toMatchObject([{ sample: 'W-2', season: 2026, collected: '2026-09-14' }]);
  });
});

async function counts(page: Page): Promise<number[]> {
  const text = await page.getByText(/\d+ rows accepted/).textContent();
  return [...text!.matchAll(/(\d+) (?:rows accepted|in question|refused)/g)].map(([, count]) =>
    Number(count),
  );
}

describe('questions', () => {
  it('are answered by keys, with what was entered put back after a crash', async () => {
    const context = await analyst();
    const page = await context.newPage();
    await page.goto(`${site.url}/staff/questions`);
    expect(await axeFinds(page)).toEqual([]);
    await page.goto(`${site.url}/staff/questions/next?code=SPECIES_AMBIGUOUS`);
    const before = await waiting('SPECIES_AMBIGUOUS');
    await page.getByLabel('Why').first().fill('as the sender told by telephone');
    const asked = path(page);
    await page.close();

    const again = await context.newPage();
    await again.goto(site.url + asked);
    await again.getByText('was put back').waitFor();
    expect(await again.getByLabel('Why').first().inputValue()).toBe('as the sender told by telephone');
    await again.keyboard.press('1');
    expect(await again.getByRole('radio').first().isChecked()).toBe(true);
    expect(await axeFinds(again)).toEqual([]);
    await again.keyboard.press('Enter');
    await again.getByText('Invented analyst answered it').waitFor();
    expect(await waiting('SPECIES_AMBIGUOUS')).toBeLessThan(before);
    const [line] = await listActivity(site.db, { what: 'questions.answer' });
    expect(line).toMatchObject({ by: 'Invented analyst' });
  });

  it('leave keys alone where they are switched off, and while somebody types', async () => {
    const page = await (await analyst()).newPage();
    await page.goto(`${site.url}/staff/questions/next?code=SPECIES_AMBIGUOUS`);
    await page.getByLabel('Why').first().press('2');
    expect(await page.getByRole('radio').nth(1).isChecked()).toBe(false);
    await page.getByLabel('Answer with keys').uncheck();
    await page.locator('body').press('2');
    expect(await page.getByRole('radio').nth(1).isChecked()).toBe(false);
    await page.getByLabel('Answer with keys').check();
    await page.locator('body').press('2');
    expect(await page.getByRole('radio').nth(1).isChecked()).toBe(true);
  });

  it('answered by two people: the second is told who was first, and how', async () => {
    const [first, second] = await Promise.all([analyst(), analyst()]);
    const [mine, theirs] = [await first.newPage(), await second.newPage()];
    await mine.goto(`${site.url}/staff/questions/next?code=SPECIES_AMBIGUOUS`);
    await theirs.goto(mine.url());
    await mine.getByRole('button', { name: 'The row does not count' }).click();
    await mine.waitForURL(/done=/);
    await theirs.getByRole('radio').first().check();
    await theirs.getByRole('button', { name: 'Answer, and on to the next' }).click();
    await theirs.getByText('Invented analyst answered it: the row does not count').waitFor();
  });

  it('of many rows with one wording are answered once: the rows are read again beside other work', async () => {
    const before = await waiting('SPECIES_AMBIGUOUS');
    const path = join(folder, 'many.csv');
    const rows = Array.from({ length: 120 }, (_, i) => ({ 'Sample #': `M-${i + 1}`, Weed: 'pigweed' }));
    writeFileSync(path, sheetOf(rows));
    const programme = await programmeOf(site.db);
    const { sheetId } = await importSheet(site.db, {
      ...{ path, programme, asOf: '2026-11-20', by: 'a test', laboratory: 'Another invented laboratory' },
    });
    expect(await waiting('SPECIES_AMBIGUOUS')).toBe(before + 120);
    const page = await (await analyst()).newPage();
    await page.goto(`${site.url}/staff/questions/next?sheet=${sheetId}`);
    await page.getByRole('radio', { name: /retroflexus/ }).check();
    await page.getByLabel(/120 rows/).check();
    await page.getByRole('button', { name: 'Answer, and on to the next' }).click();
    await page.waitForURL(/done=/);
    await expect.poll(() => waiting('SPECIES_AMBIGUOUS'), { timeout: 60_000 }).toBe(before);
    expect(await laboratoryProfile(site.db, 'Another invented laboratory')).toMatchObject({
      readings: [{ column: 'weed', text: 'pigweed', as: 'Amaranthus retroflexus' }],
    });
    const [line] = await listActivity(site.db, { what: 'questions.answer' });
    expect(line!.details).toMatchObject({ remember: true, job: expect.any(String) });
  });

  it('about counties show where they lie', async () => {
    const [county] = await site.db.$client<{ id: number }[]>`
      select id::int as id from intake.question
      where closed_at is null and reason->>'key' = 'county' and jsonb_array_length(reason->'candidates') > 1 limit 1`;
    const page = await (await analyst({ viewport: { width: 360, height: 800 } })).newPage();
    await page.goto(`${site.url}/staff/questions/${county!.id}`);
    const map = page.getByRole('img', { name: /counties that may be meant/ });
    expect(await map.locator('.candidate-map-candidate').count()).toBeGreaterThan(1);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect(await axeFinds(page)).toEqual([]);
  });
});

async function waiting(code: string): Promise<number> {
  return (await waitingByCode(site.db, { code }))[0]?.count ?? 0;
}

describe('results', () => {
  it('are filtered, their views kept, and taken away with formulas as texts', async () => {
    const page = await (await analyst()).newPage();
    await page.goto(`${site.url}/staff/results`);
    await page.getByRole('combobox', { name: 'Weed' }).selectOption('AMATU');
    await page.getByRole('button', { name: 'Show' }).click();
    await page.waitForURL(/species=AMATU/);
    const { rows } = await listResults(site.db, {
      ...{ filter: { species: 'AMATU' }, order: 'newest', after: null, limit: 500 },
    });
    await page.getByText(`${rows.length} results fit`).waitFor();
    await page.getByText('Your views').click();
    await page.getByLabel('Name of this view').fill('Waterhemp');
    await page.getByRole('button', { name: 'Keep this view' }).click();
    await page.getByText('Kept as “Waterhemp”').waitFor();
    await page.goto(`${site.url}/staff/results`);
    await page.getByText('Your views (1)').click();
    await page.getByRole('link', { name: 'Waterhemp' }).click();
    await page.waitForURL(/species=AMATU/);
    expect(await axeFinds(page)).toEqual([]);
    const download = page.waitForEvent('download');
    await page.getByRole('link', { name: 'Take these results away' }).click();
    const lines = readFileSync(await (await download).path(), 'utf8')
      .trim()
      .split('\r\n');
    expect(lines).toHaveLength(rows.length + 1);
  });

  it('are corrected with a reason; who saw an older state is told, and nothing is overwritten', async () => {
    const [first, second] = await Promise.all([analyst(), analyst()]);
    const [mine, theirs] = [await first.newPage(), await second.newPage()];
    const { rows } = await listResults(site.db, {
      ...{ filter: { result: 'resistant' }, order: 'oldest', after: null, limit: 1 },
    });
    const { key, sheetId, record } = rows[0]!;
    await mine.goto(`${site.url}/staff/results/${key}`);
    await mine
      .getByRole('link', { name: `row ${record}` })
      .first()
      .click();
    await mine.getByText('As it was sent').first().waitFor();
    await theirs.goto(mine.url());
    const form = mine.getByRole('form', { name: 'Correct a cell' });
    await form.getByLabel('Column').selectOption('alive');
    await form.getByLabel('Is to be read as').fill('0');
    await form.getByLabel('Why').fill('written down a line too low');
    await form.getByRole('button', { name: 'Correct' }).click();
    await mine.getByText('The row is accepted: susceptible').waitFor();
    expect(await readRecord(site.db, { sheetId, record })).toMatchObject({ readAs: { alive: '0' } });
    expect(await readHistory(site.db, { sheetId, record })).toMatchObject([
      { what: 'record corrected', by: 'Invented analyst', why: 'written down a line too low' },
    ]);
    const old = theirs.getByRole('form', { name: 'Take the row back' });
    await old.getByLabel('Why').fill('a second thought');
    await old.getByRole('button', { name: 'Take back' }).click();
    await theirs.getByText('was changed meanwhile').waitFor();
    expect(await readRecord(site.db, { sheetId, record })).toMatchObject({ outcome: 'accepted' });
  });
});

it('the samples of a sheet stand in their log, with the days that it states', async () => {
  const page = await (await analyst({ viewport: { width: 360, height: 800 } })).newPage();
  await page.goto(`${site.url}/staff/samples`);
  await page.getByText('How many samples have each day').waitFor();
  await page.getByText('Collected to received').first().waitFor();
  expect(await axeFinds(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
});

it.each([
  { colorScheme: 'light', width: 1280 },
  { colorScheme: 'dark', width: 360 },
] as const)(
  'sheets, their rows and results hold nothing that axe finds, and fit ($colorScheme, $width px)',
  async ({ colorScheme, width }) => {
    const page = await (await analyst({ colorScheme, viewport: { width, height: 800 } })).newPage();
    const [one] = await site.db.$client<{ sheet: number; record: number; key: string }[]>`
      select r.sheet_id as sheet, r.record, t.key from intake.record r join surveillance.test t on t.key = r.test_key
      where r.standing order by 1, 2 limit 1`;
    const { sheet, record, key } = one!;
    for (const path of [
      'sheets',
      `sheets/${sheet}`,
      `sheets/${sheet}/${record}`,
      'results',
      `results/${key}`,
    ]) {
      expect((await page.goto(`${site.url}/staff/${path}`))!.status(), path).toBe(200);
      expect(await axeFinds(page), path).toEqual([]);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth);
      expect(wide, path).toBeLessThanOrEqual(width);
    }
  },
  120_000,
);

it('an import is undone with a reason, and nothing of it counts', async () => {
  const page = await (await analyst()).newPage();
  const { id } = (await listImports(site.db)).find(({ fileName }) => fileName === 'spring.csv')!;
  await page.goto(`${site.url}/staff/sheets/${id}`);
  await page.getByLabel('Why').fill('the wrong sheet');
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.getByText(/^undone /).waitFor();
  const all = await listResults(site.db, { filter: { sheetId: id }, order: 'newest', after: null, limit: 1 });
  expect(all.rows).toEqual([]);
});
