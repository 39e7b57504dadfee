import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type PublicDatabase, publicClient } from '@/db/clients';
import { listActivity } from '@/db/repositories/activity';
import { listFirstFinds } from '@/db/repositories/first-finds';
import { setRoles } from '@/db/repositories/people';
import { latestRelease } from '@/db/repositories/published';
import { unreported } from '@/db/repositories/reported';
import { importSheet } from '@/lib/jobs/import-sheet';
import { programmeOf } from '@/lib/jobs/programme-of';
import { type RunningWorker, startWorker } from '@/lib/jobs/start-worker';
import { DEMO_DAY } from '@/scripts/scenario/sizes';
import { runDemoStages } from '@/scripts/support/demo-stages';
import { startSteps } from '@/scripts/support/steps';
import { readPdf } from '../../support/read-pdf';
import { openBrowser } from '../support/browser';
import { openStaffSite, PASSWORD, type StaffSite } from '../support/staff-site';

// The specialist, the week before a board meets, on the simulated scenario's small size: six closed seasons and a first
// release, and a sheet of 2025 that was brought in and waits to be told, closed and released.
let site: StaffSite;
let browser: Browser;
let worker: RunningWorker;
let published: PublicDatabase;
let folder: string;
let page: Page;
/** Address of a row that is corrected. */
let corrected: string;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-morning-'));
  [site, browser] = await Promise.all([
    openStaffSite(async (db, database) => {
      published = publicClient(database.publicUrl);
      await runDemoStages({
        size: 'small',
        seed: 1,
        folder,
        staff: db,
        published,
        steps: startSteps(() => {}),
      });
      const path = join(folder, 'simulated-2025.csv');
      const sheet = readFileSync(join(folder, 'simulated-2024.csv'), 'utf8');
      writeFileSync(path, sheet.replaceAll('L24-', 'L25-').replaceAll('2024-', '2025-'));
      await importSheet(db, { path, programme: await programmeOf(db), asOf: DEMO_DAY, by: 'a test' });
    }),
    openBrowser({ graphics: false }),
  ]);
  worker = await startWorker({ staffUrl: site.database.staffUrl, everyMs: 300 });
  await setRoles(site.db, { id: site.people.publisher.id, roles: ['analyst', 'publisher'] });
  page = await open();
  await page.goto(site.url);
  await signIn(page, 'publisher');
}, 900_000);

afterAll(async () => {
  await worker?.stop();
  await browser?.close();
  if (published) await closeClient(published);
  await site?.close();
  rmSync(folder, { recursive: true, force: true });
});

async function open(width = 1280): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height: 900 } });
  context.setDefaultTimeout(60_000);
  const opened = await context.newPage();
  opened.on('console', (message) => {
    if (/Content Security Policy|Refused to/.test(message.text())) throw new Error(message.text());
  });
  return opened;
}

async function signIn(on: Page, role: 'publisher' | 'analyst' | 'administrator'): Promise<void> {
  await site.db.$client`delete from access.throttle`;
  await on.goto(`${site.url}/staff/sign-in`);
  await on.getByLabel('E-mail address').fill(`${role}@example.org`);
  await on.getByLabel('Password', { exact: true }).fill(PASSWORD);
  await on.getByRole('button', { name: 'Sign in' }).click();
  await on.getByRole('heading', { name: /Good day/ }).waitFor();
}

const go = (path: string) => page.goto(site.url + path);
const MINUTES = { timeout: 240_000 };

describe('the morning of the specialist', () => {
  it('an analysis is asked for, followed, and tells what it finds', async () => {
    await go('/staff/analysis');
    await page.getByText('There is no analysis yet.').waitFor();
    await page.getByRole('button', { name: 'Analyse what is stored now' }).click();
    await page.getByText('You may leave this page: the work goes on.').waitFor();
    await page.getByRole('heading', { name: 'What it finds' }).waitFor(MINUTES);
    await page.getByText('There is no analysis before this one to compare with.').waitFor();
    await page.getByText('kochia × group 27', { exact: true }).click();
    await page.getByRole('link', { name: 'All maps, tests, places and where to look next' }).click();
    await page.getByRole('heading', { name: 'Where to look next' }).waitFor();
    expect(await page.locator('svg.map [data-place]').count()).toBe(66);
  }, 300_000);

  it('a speed is fitted from the county where it is known to have begun', async () => {
    await go('/staff/analysis/KCHSC-27');
    const began = page.getByLabel('Where it began');
    await began.selectOption({ index: 30 });
    const county = (await began.locator('option').nth(30).textContent())!;
    await page.getByRole('button', { name: 'Fit the speed from there' }).click();
    const told = page.locator('.staff-finding', { hasText: 'as stated and not estimated' });
    await told.waitFor(MINUTES);
    const text = await told.textContent();
    expect(text).toContain(`Begun in ${county}`);
    expect(text).toContain('kochia, group 27');
  }, 300_000);

  it('one that is asked for and not wanted any more is cancelled', async () => {
    await worker.stop();
    await go('/staff/analysis');
    await page.getByRole('button', { name: 'Analyse what is stored now' }).click();
    await page.getByRole('button', { name: 'Cancel it' }).click();
    await page.getByText('The last one was cancelled by Invented publisher').waitFor();
    worker = await startWorker({ staffUrl: site.database.staffUrl, everyMs: 300 });
  }, 120_000);

  it('the map has exact counts, and a switch to what the public sees of it', async () => {
    await go('/staff/map?pair=KCHSC-27&period=2022-2024');
    const told = await page.locator('.staff-headline').textContent();
    expect(told).toMatch(/^\d+ of \d+ screened populations (is|are) resistant/);
    await page.getByText('The same as a table').click();
    const rows = await page.locator('main table').first().locator('tbody tr').count();
    expect(rows).toBeGreaterThan(5);
    await page.getByRole('link', { name: 'As the public sees it' }).click();
    await page.locator('main p', { hasText: 'This is what release 1 shows of it' }).waitFor();
    await page.getByRole('link', { name: 'Back to exact counts' }).click();
    await page.locator('.staff-headline', { hasText: told! }).waitFor();
  });

  it('the senders hear first: their sheets as a PDF, noted as handed over in one act', async () => {
    await go('/staff/result-sheets?season=2025');
    await page.getByText('The sheets of this page as links').click();
    await page
      .getByRole('link', { name: /^Sheet of L25-/ })
      .first()
      .click();
    await page.getByRole('heading', { name: /^Result of sample L25-/ }).waitFor();
    const address = await page.getByRole('link', { name: 'Take it away' }).getAttribute('href');
    const pdf = await page.request.get(site.url + address);
    expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-');
    await page.getByRole('button', { name: 'Note it as handed over' }).click();
    await page.getByText(/^Handed over on /).waitFor();
    await go('/staff/result-sheets?season=2025');
    await page.getByRole('button', { name: /^Note \d+ samples as handed over$/ }).click();
    await page.getByText(/samples were noted as handed over/).waitFor();
    expect((await unreported(site.db)).filter(({ season }) => season === 2025)).toEqual([]);
  });

  it('first finds are confirmed with what the second run showed', async () => {
    await go('/staff/finds');
    const waiting = (await listFirstFinds(site.db)).filter(({ confirmedAt }) => confirmedAt === null);
    for (const { id } of waiting) await page.locator(`input[name=ids][value="${id}"]`).check();
    if (waiting.length > 0) {
      await page.getByLabel('What the second run showed').fill('Invented: the second run agreed.');
      await page.getByRole('button', { name: 'Confirm the ticked ones' }).click();
      await page.getByText(/first finds? (is|are) confirmed\. In public/).waitFor();
    }
    await page.getByText('None waits.').waitFor();
  });

  it('the season is closed after its consequences were read', async () => {
    await go('/staff/seasons');
    await page.getByText('Its window 2025–2027 would still wait for 2026 and 2027').waitFor();
    await page.getByRole('button', { name: 'Close 2025 for good' }).click();
    await page.getByRole('button', { name: 'Close 2025 for good' }).waitFor({ state: 'detached' });
    await page.getByRole('row', { name: /^2025 closed/ }).waitFor();
  });

  it('a correction of a closed season says that the next draft decides whether it enters', async () => {
    const [row] = await site.db.$client<{ sheet: number; record: number }[]>`
      select r.sheet_id as sheet, r.record from intake.record r
      where r.standing and r.season = 2022 and r.result = 'resistant' and r.public_share
        and (select count(*) from intake.record o where o.test_key = r.test_key) = 1
        and not exists (select from intake.history h where h.sheet_id = r.sheet_id and h.record = r.record)
      order by 1, 2 limit 1`;
    corrected = `/staff/sheets/${row!.sheet}/${row!.record}`;
    await go(corrected);
    const form = page.getByRole('form', { name: 'Correct a cell' });
    await form.getByLabel('Column').selectOption('alive');
    await form.getByLabel('Is to be read as').fill('0');
    await form.getByLabel('Why').fill('Invented: a line too low.');
    await form.getByRole('button', { name: 'Correct' }).click();
    await page.getByText('It was changed after release 1 was made').waitFor();
  });

  it('a release is drafted, looked at and published; who comes second is told who was first', async () => {
    await go('/staff/releases');
    await page.getByLabel('What readers should know of it').fill('Call 402-555-0134.');
    await page.getByRole('button', { name: 'Draft it' }).click();
    await page.getByText('Please leave it out').waitFor();
    await page.getByLabel('What readers should know of it').fill('Invented: the season of 2025 is new.');
    await page.getByRole('button', { name: 'Draft it' }).click();
    await page.getByRole('link', { name: 'Look at it and decide' }).click(MINUTES);
    await page.getByText('The audit is clean').waitFor();
    await page.getByText('Seasons closed since: 2025.').waitFor();
    await page.getByRole('heading', { name: 'What the public map loses' }).waitFor();
    expect((await latestRelease(published))!.number).toBe(1);
    await page.getByRole('button', { name: 'Compare with exact counts' }).click();
    const same = page.getByText(/maps of clustering have the same verdict in public as by exact counts/);
    await same.waitFor(MINUTES);
    expect(await page.locator('#finding-loss ~ p', { hasText: 'first finds by county' }).count()).toBe(1);

    // Two persons are asked for while the draft is open: who drafted it cannot publish it any more.
    const admin = await open();
    await signIn(admin, 'administrator');
    const askForTwo = async (isAsked: boolean) => {
      await admin.goto(`${site.url}/staff/settings/programme`);
      await admin.getByLabel('a second publisher does').setChecked(isAsked);
      await admin.getByRole('button', { name: 'Save' }).click();
      await admin.getByText('Saved').waitFor();
    };
    await askForTwo(true);
    await page.getByRole('button', { name: 'Publish release 2' }).click();
    await page.getByText('asks that another person publishes it').waitFor();
    expect((await latestRelease(published))!.number).toBe(1);
    await page.reload();
    await page.getByText('asks that another person publishes it').waitFor();
    expect(await page.getByRole('button', { name: 'Publish release 2' }).count()).toBe(0);
    await askForTwo(false);
    await admin.context().close();
    await page.reload();

    const second = await open();
    await signIn(second, 'publisher');
    await second.goto(page.url());
    await page.getByRole('button', { name: 'Publish release 2' }).click();
    await page.getByRole('heading', { name: 'Release 2' }).waitFor();
    await second.getByRole('button', { name: 'Publish release 2' }).click();
    await second.getByText('has published this draft already, as release 2.').waitFor();
    await second.context().close();

    const head = (await latestRelease(published))!;
    expect(head).toMatchObject({ number: 2, note: 'Invented: the season of 2025 is new.' });
    expect(head.closedSeasons).toContain(2025);
    const acts = await listActivity(site.db, { what: 'releases.publish' });
    expect(acts).toMatchObject([{ by: 'Invented publisher', about: 'release 2' }]);
  }, 300_000);

  it('the correction waits, which its own page and the first page say', async () => {
    await go(corrected);
    await page.getByText(/waited when release 2 was made \(too few populations would change/).waitFor();
    await page.getByRole('link', { name: 'What stayed out, and why' }).click();
    await page.getByRole('heading', { name: 'What stays out' }).waitFor();
    await go('/staff');
    await page.getByRole('link', { name: /^1 late change of closed seasons waited when release 2/ }).click();
    await page.getByRole('heading', { name: 'What stays out' }).waitFor();
  });

  it('an administrator looks at what a stricter policy would hide, as a table and on maps', async () => {
    const admin = await open();
    await signIn(admin, 'administrator');
    await admin.goto(`${site.url}/staff/settings/policy`);
    await admin.getByLabel('Populations, at least').fill('12');
    await admin.getByRole('button', { name: 'Show what it would do' }).click();
    await admin.getByText('You may leave this page: the work goes on.').waitFor();
    await admin.getByRole('heading', { name: 'What the proposed policy would do' }).waitFor(MINUTES);
    await admin.getByText('Populations, at least: 5 → 12').waitFor();
    await admin.getByLabel('Weed and group').selectOption('KCHSC-27');
    await admin.getByLabel('Window', { exact: true }).selectOption('2019');
    await admin.getByRole('button', { name: 'Show it' }).click();
    await admin.waitForURL(/pair=KCHSC-27/);
    await admin.getByText(/^Of the screened counties \d+ would be shown more finely/).waitFor();
    await admin.getByRole('heading', { name: 'By the proposed policy, 2019–2021' }).waitFor();
    // Each map counts the same screened populations, however finely it shows them.
    const sums = await admin.locator('section[aria-labelledby^="map-"] > p').allTextContents();
    const populations = sums.map((text) =>
      [...text.matchAll(/\((\d+) population/g)].reduce((sum, [, n]) => sum + Number(n), 0),
    );
    expect(populations).toHaveLength(2);
    expect(populations[0]).toBeGreaterThan(0);
    expect(populations[1]).toBe(populations[0]);
    await admin.context().close();
  }, 300_000);

  it('a briefing is made of exact counts, a headline worded by a person and marked', async () => {
    await go('/staff/briefing');
    await page.getByRole('button', { name: 'Show its headlines' }).click();
    await page.getByRole('heading', { name: 'Its headlines' }).waitFor();
    await page.getByLabel('Headline 1').fill('Invented words of a person.');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Make the briefing' }).click(),
    ]);
    const { pages } = await readPdf(readFileSync(await download.path()));
    expect(pages.length).toBeGreaterThan(1);
    for (const { text } of pages) expect(text).toMatch(/not for distribution/i);
    expect(pages.map(({ text }) => text).join(' ')).toContain('Invented words of a person. †');
    const [act] = await listActivity(site.db, { what: 'briefing.make' });
    expect(act).toMatchObject({ by: 'Invented publisher', details: { kind: 'pdf' } });
  });

  it('an erratum is added, and a release withdrawn with its reason', async () => {
    await go('/staff/releases/2');
    await page.getByLabel('What is wrong, and what to do').fill('Invented: read 2025 by state only.');
    await page.getByRole('button', { name: 'Add this erratum' }).click();
    await page.getByText('Erratum 1 stands beside the release').waitFor();
    await page.getByLabel('Reason, for everybody to read').fill('Invented: a wrong season was closed.');
    await page.getByRole('button', { name: 'Withdraw release 2' }).click();
    await page.getByText(/^withdrawn .*Invented: a wrong season was closed\.$/).waitFor();
    expect((await latestRelease(published))!.number).toBe(1);
  });

  it.each([
    { width: 1280, colorScheme: 'light' as const },
    { width: 360, colorScheme: 'dark' as const },
  ])(
    'all of it fits $width px and holds nothing that axe finds ($colorScheme)',
    async ({ width, colorScheme }) => {
      const [draft] = await site.db.$client<{ id: number }[]>`
      select max(id)::int as id from surveillance.release_draft`;
      const [sample] = await site.db.$client<
        { id: number }[]
      >`select min(id) as id from surveillance.population`;
      await page.setViewportSize({ width, height: 900 });
      await page.emulateMedia({ colorScheme });
      const wrong: string[] = [];
      for (const path of [
        '/staff/analysis',
        '/staff/analysis/KCHSC-27',
        '/staff/map?pair=KCHSC-27&layer=cluster',
        '/staff/map?pair=KCHSC-27&public=yes',
        '/staff/result-sheets?season=2025&which=all',
        `/staff/result-sheets/${sample!.id}`,
        '/staff/finds',
        '/staff/seasons',
        '/staff/releases',
        `/staff/releases/drafts/${draft!.id}`,
        '/staff/releases/1',
        '/staff/jobs',
        '/staff/briefing',
        '/staff/briefing?species=KCHSC&group=27',
      ]) {
        const answer = await go(path);
        expect(answer!.status(), path).toBe(200);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        if (wide > 0) wrong.push(`${path}: ${wide} px too wide`);
        const { violations } = await new AxeBuilder({ page }).analyze();
        wrong.push(...violations.map(({ id, nodes }) => `${path} ${id}: ${nodes[0]?.html}`));
      }
      expect(wrong).toEqual([]);
    },
    300_000,
  );
});
