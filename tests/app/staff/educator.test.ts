import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { listActivity } from '@/db/repositories/activity';
import { setCounties } from '@/db/repositories/people';
import { closeSeason, setProgramme } from '@/db/repositories/programme';
import { storeSheet } from '@/db/repositories/sheets';
import { makeRelease } from '@/lib/jobs/make-release';
import { programmeOf } from '@/lib/jobs/programme-of';
import { judged, sheetOf } from '../../db/invented';
import { readPdf } from '../../support/read-pdf';
import { openBrowser } from '../support/browser';
import { serve } from '../support/site';
import { openStaffSite, PASSWORD, type StaffSite } from '../support/staff-site';

// An educator with two counties of an invented programme: three closed seasons, in each eight populations of one weed
// from Lancaster County and eight from Saunders County, a quarter of them resistant; and one release.
const OWN = ['31109', '31155'];
const OTHER = '31025';

let site: StaffSite;
let open: Awaited<ReturnType<typeof serve>>;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  site = await openStaffSite(async (db) => {
    const about = { name: 'Invented cooperative', regionName: 'Invented basin', laboratory: 'Invented one' };
    await setProgramme(db, { ...about, states: ['NE'], simulated: true });
    const records = Array.from({ length: 48 }, (_, i) =>
      judged(i + 1, {
        county: OWN[i % 2]!,
        season: 2022 + (Math.floor(i / 2) % 3),
        result: Math.floor(i / 2) % 4 === 0 ? 'resistant' : 'susceptible',
      }),
    );
    await storeSheet(db, { sheet: sheetOf('a'), records });
    for (const year of [2022, 2023, 2024]) await closeSeason(db, { year, at: `${year + 1}-02-01T00:00:00Z` });
    await makeRelease(db, { programme: await programmeOf(db), date: '2026-02-10', note: '', dryRun: false });
  });
  await setCounties(site.db, { id: site.people.educator.id, counties: OWN });
  [open, browser] = await Promise.all([serve(site.database.publicUrl), openBrowser({ graphics: false })]);
  const context = await browser.newContext({ viewport: { width: 360, height: 780 } });
  context.setDefaultTimeout(60_000);
  page = await context.newPage();
}, 900_000);

afterAll(async () => {
  await browser?.close();
  await open?.close();
  await site?.close();
});

const go = (path: string) => page.goto(site.url + path);

async function isFit(): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBe(0);
  expect((await new AxeBuilder({ page }).analyze()).violations.map(({ id }) => id)).toEqual([]);
}

describe('the morning of the educator, on a phone', () => {
  it('begins with signing in, and the counties that are assigned', async () => {
    await go('/staff');
    await page.getByLabel('E-mail address').fill('educator@example.org');
    await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('heading', { name: 'Good day, Invented educator' }).waitFor();
    const names = page.getByRole('region', { name: 'Your counties' }).getByRole('link');
    expect(await names.allTextContents()).toEqual(['Lancaster County, NE', 'Saunders County, NE']);
    await isFit();
  });

  it('has the exact numbers of a county, and how they went from season to season', async () => {
    await page.getByRole('link', { name: 'Lancaster County, NE' }).click();
    await page.getByRole('heading', { name: 'Lancaster County, NE, exact' }).waitFor();
    const row = page.getByRole('row', { name: /^kochia, group 9/ });
    const text = await row.textContent();
    // The finds of a state wait for the second run of the first of them.
    expect(text).toContain('6 of 24 (6 await a second run and are in no release)');
    expect(text).toContain('2022: 2 of 8; 2023: 2 of 8; 2024: 2 of 8');
    expect(await page.getByText('S-1', { exact: true }).count()).toBe(0);
    await isFit();
  });

  it('reaches no other county, and nothing that is not an educator’s', async () => {
    expect((await go(`/staff/counties/${OTHER}`))!.status()).toBe(403);
    await page.getByText('This county is not assigned to you.').waitFor();
    for (const path of [
      'results',
      'map',
      'analysis',
      'sheets',
      'questions',
      'releases',
      'people',
      'activity',
    ])
      expect((await go(`/staff/${path}`))!.status(), path).toBe(403);
    await go('/staff');
    const menu = await page
      .locator('nav')
      .first()
      .getByRole('link', { includeHidden: true })
      .allTextContents();
    expect(menu).toEqual(['Home', 'Counties']);
  });

  it('takes the handout of the county away, which holds what is public and nothing else', async () => {
    await go(`/staff/counties/${OWN[0]}`);
    const link = page.getByRole('link', { name: 'This county as the public sees it' });
    const { pathname } = new URL((await link.getAttribute('href'))!);
    await page.goto(open.url + pathname);
    const handout = page.getByRole('link', { name: 'This county on one page, to print (PDF)' });
    const answer = await page.request.get(open.url + (await handout.getAttribute('href')));
    const { pages } = await readPdf(await answer.body());
    expect(pages).toHaveLength(1);
    expect(pages[0]!.text).toContain('Lancaster County');
    expect(pages[0]!.text).toContain('18');
    expect(pages[0]!.text).not.toContain('6 of 24');
  });

  it('ends with signing out: the county is closed, and it is written down', async () => {
    await go('/staff');
    await page.getByText('Invented educator', { exact: true }).first().click();
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByLabel('E-mail address').waitFor();
    await go(`/staff/counties/${OWN[0]}`);
    expect(page.url()).toContain('/staff/sign-in?next=');
    const acts = await listActivity(site.db, {});
    expect(acts.map(({ by, what }) => `${by} ${what}`).reverse()).toEqual([
      'Invented educator signed in',
      'Invented educator signed out',
    ]);
  });
});
