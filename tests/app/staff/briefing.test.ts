import { readFileSync } from 'node:fs';
import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { regionOf } from '@/app/region';
import { readBriefing } from '@/app/view/read-briefing';
import { closeClient, type PublicDatabase, publicClient } from '@/db/clients';
import { readHistory } from '@/db/repositories/history';
import { setProgramme } from '@/db/repositories/programme';
import { latestRelease } from '@/db/repositories/published';
import { saveRelease, withdrawRelease } from '@/db/repositories/releases';
import { parseBriefing, wishOf } from '@/lib/briefing/choose';
import { briefingOf, makeBriefing } from '@/lib/briefing/make-briefing';
import type { BriefingNumbers } from '@/lib/briefing/types';
import type { Role } from '@/lib/vocabulary/roles';
import { readPdf } from '../../support/read-pdf';
import { inventedRelease } from '../invented-release';
import { openBrowser } from '../support/browser';
import { openStaffSite, type StaffSite } from '../support/staff-site';

// An invented programme with two invented releases, the first of them withdrawn.
let site: StaffSite;
let browser: Browser;
let published: PublicDatabase;

beforeAll(async () => {
  [site, browser] = await Promise.all([
    openStaffSite(async (db, { publicUrl }) => {
      published = publicClient(publicUrl);
      await setProgramme(db, {
        ...{ name: 'Invented cooperative', regionName: 'Invented basin', states: ['CO', 'KS', 'NE', 'SD'] },
        ...{ simulated: true, laboratory: 'Invented laboratory' },
      });
      await saveRelease(db, inventedRelease());
      await saveRelease(db, inventedRelease());
      await withdrawRelease(db, { number: 1, note: 'Invented: a wrong table.', at: '2026-03-01T00:00:00Z' });
    }),
    openBrowser({ graphics: false }),
  ]);
}, 900_000);
afterAll(async () => {
  await browser?.close();
  if (published) await closeClient(published);
  await site?.close();
});

const RELEASED = '/staff/briefing?source=release';

async function as(role: Role, width = 1280): Promise<Page> {
  const context = await browser.newContext({ viewport: { width, height: 900 } });
  context.setDefaultTimeout(60_000);
  onTestFinished(() => context.close());
  const [name, value] = (await site.cookieOf(site.people[role])).split('=', 2);
  await context.addCookies([{ name: name!, value: value!, url: site.url }]);
  return context.newPage();
}

/** The document that the form asks for, sent without a browser. */
async function ask(role: Role, fields: Record<string, string>): Promise<Response> {
  return fetch(`${site.url}/staff/briefing/document`, {
    method: 'POST',
    headers: { cookie: await site.cookieOf(site.people[role]), origin: site.url },
    body: new URLSearchParams({ source: 'release', species: 'KCHSC', group: '27', ...fields }),
  });
}

/** What anybody may read. */
async function publicNumbers(query: string): Promise<BriefingNumbers> {
  const head = (await latestRelease(published))!;
  const choice = parseBriefing(wishOf(new URLSearchParams(query)), head, regionOf(head));
  if ('problem' in choice) throw new Error(choice.problem);
  return readBriefing(published, head, choice);
}

it('a headline of released numbers is worded: the document marks it, holds what anybody may read, and who worded it stays', async () => {
  const page = await as('analyst');
  await page.goto(`${site.url}/staff/briefing`);
  await page.getByRole('link', { name: 'released numbers' }).click();
  await page.getByLabel('Weed').selectOption('KCHSC');
  await page.getByLabel('Herbicide group').selectOption('27');
  expect(await page.getByLabel('Release', { exact: true }).locator('option').allTextContents()).toEqual([
    'release 2',
  ]);
  expect(await page.getByLabel('Paid for by').count()).toBe(0);
  await page.getByRole('button', { name: 'Show its headlines' }).click();
  const numbers = await publicNumbers('species=KCHSC&group=27');
  const { headlines } = briefingOf(numbers);
  const fields = page.getByLabel(/^Headline \d/);
  expect(await fields.evaluateAll((all) => all.map((one) => (one as HTMLTextAreaElement).value))).toEqual(
    headlines.map(({ computed }) => computed),
  );
  await page.getByLabel('Headline 2').fill('Invented words of a person.');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Make the briefing' }).click(),
  ]);
  expect(download.suggestedFilename()).toBe('briefing-kchsc-27-release-2.pdf');
  const bytes = readFileSync(await download.path());
  const edits = { [headlines[1]!.key]: 'Invented words of a person.' };
  expect(Buffer.compare(bytes, await makeBriefing(briefingOf(numbers, edits), 'pdf'))).toBe(0);
  const text = (await readPdf(bytes)).pages.map((one) => one.text).join(' ');
  expect(text).toContain('Invented words of a person. †');
  expect(text).not.toMatch(/not for distribution/i);
  const [line] = await readHistory(site.db, { limit: 1 });
  expect(line).toMatchObject({
    ...{ what: 'briefing worded', by: 'Invented analyst', why: expect.stringContaining('Release 2 of') },
    ...{ before: { [headlines[1]!.key]: headlines[1]!.computed }, after: edits },
  });
});

it('it opens to those who may make a briefing alone', async () => {
  for (const role of ['educator', 'administrator'] as const) {
    const headers = { cookie: await site.cookieOf(site.people[role]) };
    expect((await fetch(site.url + RELEASED, { headers })).status, role).toBe(403);
    expect((await ask(role, {})).status, role).toBe(403);
  }
  expect((await ask('publisher', { kind: 'pptx' })).status).toBe(200);
});

it.each([
  [{ release: '1' }, 'There is no release “1” that stands.'],
  [{ release: '9 or 1=1' }, 'There is no release “9 or 1=1” that stands.'],
  [{ group: '10' }, 'There is no herbicide group of KCHSC “10”. There are: 9, 27.'],
  [{ crop: 'wheat' }, 'A briefing of released numbers is of all crops and funders.'],
  [{ 'sentence-found-27': 'Call 308 555 0100 (invented).' }, 'A headline is shown to everybody, and carries'],
  [{ 'sentence-found-9': 'Invented.' }, 'There is no sentence “found-9”.'],
])('what is refused is told, and nothing of it is written down: %j', async (fields, words) => {
  const before = await readHistory(site.db, { limit: 1 });
  const answer = await ask('analyst', fields);
  expect([answer.status, await answer.text()]).toEqual([422, expect.stringContaining(words)]);
  expect(await readHistory(site.db, { limit: 1 })).toEqual(before);
});

it('fits a phone, and holds nothing that axe finds', async () => {
  const page = await as('analyst', 360);
  for (const path of [RELEASED, `${RELEASED}&species=KCHSC&group=27`]) {
    expect((await page.goto(site.url + path))!.status()).toBe(200);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  }
});
