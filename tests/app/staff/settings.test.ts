import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it, onTestFinished } from 'vitest';
import { listActivity } from '@/db/repositories/activity';
import { listEarlierFinds } from '@/db/repositories/first-finds';
import { laboratoryProfile } from '@/db/repositories/laboratories';
import { getProgramme, setProgramme } from '@/db/repositories/programme';
import { storeSheet } from '@/db/repositories/sheets';
import { type RunningWorker, startWorker } from '@/lib/jobs/start-worker';
import type { Role } from '@/lib/vocabulary/roles';
import { judged, sheetOf } from '../../db/invented';
import { openBrowser } from '../support/browser';
import { openStaffSite, type StaffSite } from '../support/staff-site';

const LABORATORY = 'Invented Laboratory';

let site: StaffSite;
let browser: Browser;
let worker: RunningWorker;
beforeAll(async () => {
  [site, browser] = await Promise.all([
    openStaffSite(async (db) => {
      await setProgramme(db, {
        name: 'Invented cooperative',
        regionName: 'Invented basin',
        states: ['NE'],
        simulated: true,
        laboratory: LABORATORY,
      });
      await storeSheet(db, {
        sheet: sheetOf('a'),
        records: [1, 2, 3].map((record) =>
          judged(record, { county: record === 3 ? '31145' : '31109', alive: record === 3 ? 38 : 12 }),
        ),
      });
    }),
    openBrowser({ graphics: false }),
  ]);
  worker = await startWorker({ staffUrl: site.database.staffUrl, everyMs: 200 });
}, 900_000);
afterAll(async () => {
  await worker?.stop();
  await browser?.close();
  await site?.close();
});

/** A page of somebody with this role, signed in. */
async function as(role: Role, options: Parameters<Browser['newContext']>[0] = {}): Promise<Page> {
  const context: BrowserContext = await browser.newContext(options);
  context.setDefaultTimeout(60_000);
  onTestFinished(() => context.close());
  const [name, value] = (await site.cookieOf(site.people[role])).split('=', 2);
  await context.addCookies([{ name: name!, value: value!, url: site.url }]);
  return context.newPage();
}

const SETTINGS = '/staff/settings';

it('what the programme says of itself is saved and written down; an analyst can read it alone', async () => {
  const page = await as('administrator');
  await page.goto(`${site.url}${SETTINGS}/programme`);
  await page.getByLabel('Whom to ask').fill('Invented desk, invented@example.org');
  await page.getByLabel('Licence of the released data').selectOption('CC0-1.0');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('status').getByText('Saved').waitFor();
  expect(await getProgramme(site.db)).toMatchObject({
    contact: 'Invented desk, invented@example.org',
    licence: 'CC0-1.0',
  });
  const [line] = await listActivity(site.db, { what: 'settings.change' });
  expect(line).toMatchObject({ by: site.people.administrator.name, about: 'programme' });
  const reader = await as('analyst');
  await reader.goto(`${site.url}${SETTINGS}/programme`);
  expect(await reader.getByLabel('Whom to ask').isDisabled()).toBe(true);
  expect(await reader.getByRole('button', { name: 'Save' }).count()).toBe(0);
});

it('a policy that is looser than the defaults is refused in words, and what was entered stays', async () => {
  const page = await as('administrator');
  await page.goto(`${site.url}${SETTINGS}/policy`);
  await page.getByLabel('Populations, at least').fill('3');
  await page.getByRole('button', { name: 'Show what it would do' }).click();
  await page.getByText('minimumTested is 3').waitFor();
  expect(await page.getByLabel('Populations, at least').inputValue()).toBe('3');
});

it('another case definition shows what it would change before it is applied', async () => {
  const page = await as('administrator');
  await page.goto(`${site.url}${SETTINGS}/definitions`);
  await page.getByRole('link', { name: 'What would change' }).first().click();
  await page.getByRole('heading', { name: /would change/ }).waitFor();
  const results = () =>
    site.db.$client`select key, result, case_definition from surveillance.test order by key`;
  const before = await results();
  await page.getByRole('button', { name: 'Work it out' }).click();
  await page.getByText(/^Worked out /).waitFor();
  expect(await results()).toEqual(before);
  await page.getByRole('button', { name: /^Apply/ }).click();
  await page.getByText(/^Last applied .* by Invented administrator: \d+ of 3 tests changed/).waitFor();
  const after = await results();
  expect(after.map(({ case_definition }) => case_definition)).not.toEqual(
    before.map(({ case_definition }) => case_definition),
  );
});

it('what a laboratory’s heading means is said once, and forgotten again', async () => {
  const page = await as('analyst');
  await page.goto(`${site.url}${SETTINGS}/laboratories`);
  await page.getByRole('link', { name: LABORATORY }).click();
  await page.getByLabel('Column', { exact: true }).selectOption('county');
  await page.getByLabel('Their heading or text').fill('Cnty');
  await page.getByRole('button', { name: 'Save' }).click();
  await page.getByRole('status').getByText('Saved').waitFor();
  expect((await laboratoryProfile(site.db, LABORATORY)).headings).toEqual({ cnty: 'county' });
  await page.getByRole('button', { name: 'Forget' }).click();
  await page.getByText('Nothing so far.').nth(2).waitFor();
  expect((await laboratoryProfile(site.db, LABORATORY)).headings).toEqual({});
});

it('an earlier find is entered, a wrong county told, and taken out with a reason', async () => {
  const page = await as('analyst');
  await page.goto(`${site.url}${SETTINGS}/earlier-finds`);
  for (const [label, text] of [
    ['EPPO code of the weed', 'kchsc'],
    ['Group', '9'],
    ['Season', '2012'],
    ['County (FIPS code)', '31999'],
    ['Where it is reported', 'an invented bulletin'],
  ] as const)
    await page.getByLabel(label, { exact: true }).fill(text);
  await page.getByRole('button', { name: 'Enter' }).click();
  await page.getByText('This is no county.').waitFor();
  await page.getByLabel('County (FIPS code)', { exact: true }).fill('31109');
  await page.getByRole('button', { name: 'Enter' }).click();
  await page.getByRole('status').getByText('Entered').waitFor();
  expect(await listEarlierFinds(site.db)).toMatchObject([
    { species: 'KCHSC', season: 2012, county: '31109' },
  ]);
  await page.getByLabel('Why').fill('entered by mistake');
  await page.getByRole('button', { name: 'Take out' }).click();
  await expect.poll(() => listEarlierFinds(site.db), { timeout: 30_000 }).toEqual([]);
});

it('an operation’s rows are deleted only when its id is typed again', async () => {
  const page = await as('administrator');
  await page.goto(`${site.url}${SETTINGS}/privacy?operation=OP-2`);
  await page.getByText('Of OP-2 there are 1 records').waitFor();
  await page.getByLabel('Type the id once more').fill('OP-1');
  await page.getByLabel('Why').last().fill('asked by letter');
  await page.getByRole('button', { name: 'Delete for good' }).click();
  await page.getByText('This is not the id').waitFor();
  await page.getByLabel('Type the id once more').fill('OP-2');
  await page.getByRole('button', { name: 'Delete for good' }).click();
  await page.getByText('Nothing is stored of “OP-2”').waitFor();
  const left = await site.db.$client`select operation from intake.record order by 1`;
  expect(left.map(({ operation }) => operation)).toEqual(['OP-1', 'OP-3']);
  const [line] = await listActivity(site.db, { what: 'privacy.delete' });
  expect(JSON.stringify(line)).not.toContain('OP-2');
});

it('an educator sees the exact numbers of the assigned counties, and of no other', async () => {
  await site.db.$client`insert into access.person_county values (${site.people.educator.id}, '31145')`;
  const page = await as('educator');
  await page.goto(`${site.url}/staff`);
  await page.getByRole('link', { name: 'Red Willow' }).click();
  await page.getByRole('cell', { name: '1 of 1' }).first().waitFor();
  await page.getByText('None found is not none there', { exact: false }).first().waitFor();
  expect((await page.goto(`${site.url}/staff/counties/31109`))!.status()).toBe(403);
  expect(await page.content()).not.toContain('1 of 1');
});

it.each([
  { colorScheme: 'light', width: 1280 },
  { colorScheme: 'dark', width: 360 },
] as const)(
  'the pages hold nothing that axe finds, and fit ($colorScheme, $width px)',
  async ({ colorScheme, width }) => {
    const page = await as('administrator', { colorScheme, viewport: { width, height: 800 } });
    const sections = [
      'programme',
      'policy',
      'definitions',
      'laboratories',
      'vocabulary',
      'districts',
      'earlier-finds',
      'privacy',
    ];
    const laboratory = `${SETTINGS}/laboratories/${encodeURIComponent(LABORATORY)}`;
    const paths = [
      SETTINGS,
      ...sections.map((one) => `${SETTINGS}/${one}`),
      laboratory,
      '/staff/counties/31109',
    ];
    for (const path of paths) {
      const answer = await page.goto(site.url + path);
      expect(answer!.status(), path).toBe(200);
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(
        violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`),
        path,
      ).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth), path).toBeLessThanOrEqual(
        width,
      );
    }
  },
  300_000,
);

it('a consent is withdrawn, and whoever withdraws it reads at once what that does in public', async () => {
  const page = await as('administrator');
  await page.goto(`${site.url}${SETTINGS}/privacy`);
  const form = page.locator('form', { has: page.getByRole('button', { name: 'Withdraw' }) });
  await form.getByLabel('Operation').fill('OP-1');
  await form.getByLabel('Why').fill('asked by letter');
  await form.getByRole('button', { name: 'Withdraw' }).click();
  await page.getByText('In public: it is of a season that no release has told of yet.').waitFor();
  const shared = await site.db
    .$client`select operation from surveillance.population where public_share order by 1`;
  expect(shared.map(({ operation }) => operation)).toEqual(['OP-3']);
});
