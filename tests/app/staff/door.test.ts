import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { listActivity } from '@/db/repositories/activity';
import {
  addPerson,
  closeAccount,
  type Person,
  reopenAccount,
  setFactorDuties,
  setRoles,
} from '@/db/repositories/people';
import { givePassword } from '@/lib/access/invite';
import { startStaffProcess } from '@/scripts/support/staff-process';
import { openBrowser } from '../support/browser';
import { openStaffSite, PASSWORD, type StaffSite } from '../support/staff-site';
import { totp } from '../support/totp';

// Passwords are hashed slowly on purpose, many times over in some of these.
vi.setConfig({ testTimeout: 240_000 });

let site: StaffSite;
let browser: Browser;
beforeAll(async () => {
  [site, browser] = await Promise.all([openStaffSite(), openBrowser({ graphics: false })]);
}, 600_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

// All tests come from one address: each begins with its own count of attempts.
beforeEach(async () => {
  await site.db.$client`delete from access.throttle`;
});

async function open(options: Parameters<Browser['newContext']>[0] = {}): Promise<Page> {
  const context: BrowserContext = await browser.newContext(options);
  context.setDefaultTimeout(60_000);
  onTestFinished(() => context.close());
  const page = await context.newPage();
  page.on('console', (message) => {
    // What the policy keeps from running would be said here.
    if (/Content Security Policy|Refused to/.test(message.text())) throw new Error(message.text());
  });
  return page;
}

async function signIn(page: Page, email: string, password: string, path = '/staff'): Promise<void> {
  await page.goto(site.url + path);
  await page.getByLabel('E-mail address').fill(email);
  await page.getByLabel('Password', { exact: true }).fill(password);
  await page.getByRole('button', { name: 'Sign in' }).click();
}

let made = 0;
/** A new invented account, so that no test leans on another. */
async function somebody(): Promise<Person> {
  made += 1;
  const person = await addPerson(site.db, {
    name: `Invented person ${made}`,
    email: `invented-${made}@example.org`,
    roles: ['administrator'],
  });
  await givePassword(site.db, person.id, PASSWORD);
  return person;
}

describe.each([true, false])('with script: %s', (javaScriptEnabled) => {
  it('signing in leads to the page that was asked for; a wrong password is told and written down', async () => {
    const { email, id } = await somebody();
    const page = await open({ javaScriptEnabled });
    await signIn(page, email, 'not the password', '/staff/activity?what=signed%20in');
    await page.getByText('do not belong together').waitFor();
    expect(await page.getByLabel('E-mail address').inputValue()).toBe(email);
    await page.getByLabel('Password', { exact: true }).fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.waitForURL(`${site.url}/staff/activity?what=signed%20in`);
    const done = await listActivity(site.db, { about: email });
    expect(done.map(({ what }) => what)).toContain('sign-in refused');
    const own = await listActivity(site.db, { what: 'signed in' });
    expect(own.map(({ personId }) => personId)).toContain(id);
  });
});

it('a session is a cookie that no script can read and no other site can send', async () => {
  const page = await open();
  await signIn(page, (await somebody()).email, PASSWORD);
  await page.getByRole('heading', { name: /Good day/ }).waitFor();
  const cookies = await page.context().cookies();
  expect(cookies).toHaveLength(1);
  expect(cookies[0]).toMatchObject({ httpOnly: true, sameSite: 'Strict' });
  const again = await page.reload();
  expect(again!.headers()).toMatchObject({
    'cache-control': 'no-store',
    'x-robots-tag': 'noindex, nofollow',
  });
  expect(again!.headers()['content-security-policy']).not.toContain('unsafe');
  await page.getByText('Invented person').first().click();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  expect((await page.goto(`${site.url}/staff/people`))!.url()).toContain('/staff/sign-in');
});

it('a closed account is out at once, and cannot come back in until it is opened again', async () => {
  const { email, id } = await somebody();
  const page = await open();
  await signIn(page, email, PASSWORD);
  await page.getByRole('heading', { name: /Good day/ }).waitFor();
  await closeAccount(site.db, id);
  await page.goto(`${site.url}/staff`);
  await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  await signIn(page, email, PASSWORD);
  await page.getByText('do not belong together').waitFor();
  await reopenAccount(site.db, id);
  await signIn(page, email, PASSWORD);
  await page.getByRole('heading', { name: /Good day/ }).waitFor();
});

it('a forgotten password is chosen anew by a letter whose link works once; other sessions end', async () => {
  const { email } = await somebody();
  const elsewhere = await open();
  await signIn(elsewhere, email, PASSWORD);
  await elsewhere.getByRole('heading', { name: /Good day/ }).waitFor();
  const page = await open();
  await page.goto(`${site.url}/staff/forgotten-password`);
  await page.getByLabel('E-mail address').fill(email);
  await page.getByRole('button', { name: 'Send the letter' }).click();
  await page.getByText('a letter is on its way').waitFor();
  const letter = site.letters().at(-1)!;
  expect(letter).toContain(`To: ${email}`);
  const link = /http:\S+new-password\?token=\S+/.exec(
    letter.replaceAll('=\r\n', '').replaceAll('=3D', '='),
  )![0];
  await page.goto(link);
  await page.getByLabel('New password').fill('short');
  await page.getByRole('button', { name: 'Use this password' }).click();
  await page.locator('.staff-wrong').waitFor();
  await page.getByLabel('New password').fill('another invented one');
  await page.getByRole('button', { name: 'Use this password' }).click();
  await page.getByText('Your password is changed').waitFor();
  await elsewhere.goto(`${site.url}/staff`);
  await elsewhere.getByRole('heading', { name: 'Sign in' }).waitFor();
  await signIn(page, email, 'another invented one');
  await page.getByRole('heading', { name: /Good day/ }).waitFor();
  const second = await open();
  await second.goto(link);
  await second.getByLabel('New password').fill('a third invented one');
  await second.getByRole('button', { name: 'Use this password' }).click();
  await second.getByText('This link was used before').waitFor();
});

it('asking for a password says the same where there is no account, and sends nothing', async () => {
  const before = site.letters().length;
  const page = await open();
  await page.goto(`${site.url}/staff/forgotten-password`);
  await page.getByLabel('E-mail address').fill('nobody@example.org');
  await page.getByRole('button', { name: 'Send the letter' }).click();
  await page.getByText('a letter is on its way').waitFor();
  expect(site.letters()).toHaveLength(before);
});

it('one’s own password is changed by who knows it: other sessions end, this one stays, and the log is taken away', async () => {
  const { email, name } = await somebody();
  const elsewhere = await open();
  await signIn(elsewhere, email, PASSWORD);
  await elsewhere.getByRole('heading', { name: /Good day/ }).waitFor();
  const page = await open();
  await signIn(page, email, PASSWORD, '/staff/account');
  const change = async (current: string) => {
    await page.getByLabel('Password you have now').fill(current);
    await page.getByLabel('New password').fill('=1+1, an invented one');
    await page.getByRole('button', { name: 'Change password' }).click();
  };
  await change('not the password');
  await page.getByText('This is not your password.').waitFor();
  await change(PASSWORD);
  const last = async () => (await listActivity(site.db, { what: 'account.change' }))[0]?.about;
  await page.getByText('Your password is changed. You are signed out everywhere else.').waitFor();
  expect(await last()).toBe('own password changed');
  await elsewhere.goto(`${site.url}/staff`);
  await elsewhere.getByRole('heading', { name: 'Sign in' }).waitFor();
  const file = await page.request.get(`${site.url}/staff/activity/file`);
  expect(file.headers()['content-disposition']).toContain('activity.csv');
  const text = await file.text();
  const line = text.split('\n').find((one) => one.includes('own password changed'));
  expect(line).toContain(`,${name},account.change,`);
  expect(text).not.toContain('an invented one');
});

it('while no letter can be sent, whoever asks for one is told so, with an account or without', async () => {
  const { email } = await somebody();
  const without = await startStaffProcess({
    ...{ port: 0, staffUrl: site.database.staffUrl, publicSite: 'http://127.0.0.1:3000' },
    // Nothing listens there.
    mail: 'smtp://127.0.0.1:1',
    env: { FENCEROW_SECRET: 'an invented secret of this test, long enough', NODE_ENV: 'production' },
  });
  try {
    for (const address of [email, 'nobody@example.org']) {
      const page = await open();
      await page.goto(`${without.url}/staff/forgotten-password`);
      await page.getByLabel('E-mail address').fill(address);
      await page.getByRole('button', { name: 'Send the letter' }).click();
      await page.getByText('This server cannot send letters at the moment').waitFor();
    }
  } finally {
    await without.close();
  }
});

it('a second factor is asked for once it is set up: a code opens, a wrong one does not, a recovery code once', async () => {
  const { email } = await somebody();
  const page = await open();
  await signIn(page, email, PASSWORD, '/staff/account');
  await page.getByLabel('Your password', { exact: true }).fill(PASSWORD);
  await page.getByRole('button', { name: 'Set up a second factor' }).click();
  await page.getByRole('img', { name: /QR code/ }).waitFor();
  const key = (await page.locator('.staff-shown').first().textContent()) ?? '';
  const recovery = (await page.locator('.staff-codes code').first().textContent()) ?? '';
  await page.getByLabel('Code that the program shows now').fill(totp(key, Date.now()));
  await page.getByRole('button', { name: 'Finish' }).click();
  await page.getByText('A second factor is set up').waitFor();

  const other = await open();
  await signIn(other, email, PASSWORD, '/staff/people');
  await other.getByRole('heading', { name: 'Second factor' }).waitFor();
  expect((await other.goto(`${site.url}/staff/people`))!.url()).toContain('/staff/sign-in');
  await signIn(other, email, PASSWORD, '/staff/people');
  await other.getByLabel('Code').fill('000000');
  await other.getByRole('button', { name: 'Go on' }).click();
  await other.getByText('This code does not fit').waitFor();
  await other.getByLabel('Code').fill(totp(key, Date.now()));
  await other.getByRole('button', { name: 'Go on' }).click();
  await other.getByRole('heading', { name: 'People' }).waitFor();

  for (const works of [true, false]) {
    const third = await open();
    await signIn(third, email, PASSWORD);
    await third.getByLabel('Code').fill(recovery);
    await third.getByRole('button', { name: 'Go on' }).click();
    await third
      .getByText(works ? /Good day/ : /This code does not fit/)
      .first()
      .waitFor();
  }
});

it('whoever has a role that must have a second factor sets it up before anything else opens', async () => {
  const [asks, owes] = [await somebody(), await somebody()];
  await setRoles(site.db, { id: owes.id, roles: ['publisher'] });
  onTestFinished(() => setFactorDuties(site.db, []));
  const under = await open();
  await signIn(under, owes.email, PASSWORD, '/staff/releases');
  await under.getByRole('heading', { name: 'Releases', exact: true }).waitFor();

  const admin = await open();
  await signIn(admin, asks.email, PASSWORD, '/staff/people');
  const form = admin.getByRole('form', { name: 'Who must have a second factor' });
  await form.getByLabel('Publisher').check();
  await form.getByRole('button', { name: 'Save who must have one' }).click();
  await admin.getByText('It holds from everybody’s next click on.').waitFor();
  await admin
    .getByRole('row', { name: new RegExp(owes.email) })
    .getByText('must set up')
    .waitFor();
  const [line] = await listActivity(site.db, { what: 'people.manage' });
  expect(line).toMatchObject({ by: asks.name, details: { before: [], after: ['publisher'] } });

  // The session under way is led there too; a file and an action do not open either.
  await under.getByRole('button', { name: 'Draft it' }).click();
  await under.getByText('Your programme asks a second factor of your role').waitFor();
  expect((await under.request.get(`${site.url}/staff/results/file`)).status()).toBe(403);
  await under.goto(`${site.url}/staff/releases`);
  expect(new URL(under.url()).pathname).toBe('/staff/account');
  await under.getByText('Set it up here first').waitFor();
  await under.getByLabel('Your password', { exact: true }).fill(PASSWORD);
  await under.getByRole('button', { name: 'Set up a second factor' }).click();
  await under.getByRole('img', { name: /QR code/ }).waitFor();
  const key = (await under.locator('.staff-shown').first().textContent()) ?? '';
  await under.getByLabel('Code that the program shows now').fill(totp(key, Date.now()));
  await under.getByRole('button', { name: 'Finish' }).click();
  await under.getByText('so it stays').waitFor();
  expect(await under.getByRole('button', { name: 'Remove the second factor' }).count()).toBe(0);
  await under.goto(`${site.url}/staff/releases`);
  await under.getByRole('heading', { name: 'Releases', exact: true }).waitFor();
});

it('somebody who tries password after password is made to wait', async () => {
  const { email } = await somebody();
  const page = await open();
  await page.goto(`${site.url}/staff/sign-in`);
  const tooOften = page.getByText('Too many attempts');
  for (let tries = 0; tries < 25 && !(await tooOften.isVisible()); tries++) {
    await page.getByLabel('E-mail address').fill(email);
    await page.getByLabel('Password', { exact: true }).fill(`guess ${tries}`);
    const answer = page.waitForResponse((response) => response.request().method() === 'POST');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await answer;
    await page.locator('form[aria-busy="false"]').waitFor();
  }
  expect(await tooOften.isVisible()).toBe(true);
});

it('somebody who asks for letter after letter is made to wait, and gets no more than five', async () => {
  const { email } = await somebody();
  const before = site.letters().length;
  const page = await open();
  await page.goto(`${site.url}/staff/forgotten-password`);
  const tooOften = page.getByText('Too many attempts');
  for (let asked = 0; asked < 8 && !(await tooOften.isVisible()); asked++) {
    await page.getByLabel('E-mail address').fill(email);
    const answer = page.waitForResponse((response) => response.request().method() === 'POST');
    await page.getByRole('button', { name: 'Send the letter' }).click();
    await answer;
    await page.locator('form[aria-busy="false"]').waitFor();
  }
  expect(await tooOften.isVisible()).toBe(true);
  await expect.poll(() => site.letters().length - before).toBe(5);
});

it('somebody is invited by an administrator, chooses a password by the letter, and has the roles that were given', async () => {
  const page = await open();
  await signIn(page, (await somebody()).email, PASSWORD, '/staff/people');
  await page.getByLabel('Name').fill('Invented Newcomer');
  await page.getByLabel('E-mail address').fill('Newcomer@Example.org');
  await page.getByRole('button', { name: 'Invite' }).click();
  await page.getByText('Choose one role or more').waitFor();
  await page.getByRole('checkbox', { name: 'Analyst brings sheets in' }).check();
  await page.getByRole('button', { name: 'Invite' }).click();
  await page.getByText('A letter with a link is on its way').waitFor();
  const letter = site.letters().at(-1)!.replaceAll('=\r\n', '').replaceAll('=3D', '=');
  const newcomer = await open();
  await newcomer.goto(/http:\S+new-password\?token=\S+/.exec(letter)![0]);
  await newcomer.getByLabel('New password').fill('the newcomer’s password');
  await newcomer.getByRole('button', { name: 'Use this password' }).click();
  await newcomer.getByText('Your password is changed').waitFor();
  await signIn(newcomer, 'newcomer@example.org', 'the newcomer’s password');
  await newcomer.getByRole('heading', { name: 'Good day, Invented Newcomer' }).waitFor();
  expect((await newcomer.goto(`${site.url}/staff/people`))!.status()).toBe(403);
});

describe('the pages', () => {
  const PAGES = [
    '/staff',
    '/staff/account',
    '/staff/people',
    '/staff/activity',
    '/staff/counties',
    '/staff/nowhere',
  ];

  it.each([
    { colorScheme: 'light', width: 1280 },
    { colorScheme: 'dark', width: 360 },
  ] as const)(
    'hold nothing that axe finds, and fit ($colorScheme, $width px)',
    async ({ colorScheme, width }) => {
      await site.db.$client`delete from access.throttle`;
      const page = await open({ colorScheme, viewport: { width, height: 800 } });
      for (const path of [
        '/staff/forgotten-password',
        '/staff/new-password?token=invented',
        '/staff/sign-in',
      ]) {
        await page.goto(site.url + path);
        await check(page, width, path);
      }
      const { id, email } = await somebody();
      await signIn(page, email, PASSWORD);
      await page.getByRole('heading', { name: /Good day/ }).waitFor();
      for (const path of [...PAGES, `/staff/people/${id}`]) {
        await page.goto(site.url + path);
        await check(page, width, path);
      }
      await page.goto(`${site.url}/staff`);
      if (width < 960) {
        await page.getByRole('button', { name: 'Menu' }).click();
        await page.getByRole('link', { name: 'People' }).waitFor();
        await check(page, width, 'the open menu');
      }
    },
    180_000,
  );

  async function check(page: Page, width: number, what: string): Promise<void> {
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(
      violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`),
      what,
    ).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth), what).toBeLessThanOrEqual(width);
  }
});
