import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from '../support/browser';
import { addressOf, staffDoors } from '../support/staff-doors';
import { openStaffSite, PASSWORD, type StaffSite } from '../support/staff-site';

const PAGES = [
  ...new Set(
    staffDoors(`${import.meta.dirname}/../../..`)
      .filter(({ kind, file }) => kind === 'page' && !file.includes('['))
      .map(({ file }) => addressOf(file)),
  ),
].sort();

let site: StaffSite;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  [site, browser] = await Promise.all([openStaffSite(), openBrowser({ graphics: false })]);
  page = await (await browser.newContext({ viewport: { width: 1280, height: 900 } })).newPage();
  await page.goto(`${site.url}/staff/sign-in`);
  await page.keyboard.press('Tab');
  await page.getByLabel('E-mail').focus();
  await page.keyboard.type(site.people.administrator.email);
  await page.keyboard.press('Tab');
  await page.keyboard.type(PASSWORD);
  await page.keyboard.press('Enter');
  await page.waitForURL(({ pathname }) => pathname === '/staff');
}, 600_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

it('every page without a variable part is known', () => expect(PAGES.length).toBeGreaterThan(15));

it.each(PAGES)('%s gives each of its controls to the Tab key, and shows which has it', async (path) => {
  await page.goto(site.url + path);
  await page.locator('h1').waitFor();
  const controls = await markControls(page);
  const reached = new Set<string>();
  const unseen: string[] = [];
  // Fields of dates take several steps.
  for (let step = 0; step < 6 * controls.length + 4; step++) {
    await page.keyboard.press('Tab');
    const focus = await focused(page);
    if (!focus) break;
    if (focus.mark) reached.add(focus.mark);
    if (!focus.isShown) unseen.push(focus.words);
  }
  expect(controls.filter(({ mark }) => !reached.has(mark)).map(({ words }) => words)).toEqual([]);
  expect(unseen).toEqual([]);
});

interface Control {
  mark: string;
  words: string;
}

/** Numbers what can be used; of radio buttons with one name the Tab key takes one. */
function markControls(within: Page): Promise<Control[]> {
  return within.evaluate(() => {
    const all = document.querySelectorAll<HTMLInputElement>(
      'a[href], button, input:not([type="hidden"]), select, textarea, summary, [tabindex="0"]',
    );
    const usable = [...all].filter((one) => one.checkVisibility() && !one.disabled && one.type !== 'radio');
    return usable.map((one, i) => {
      one.dataset.mark = String(i);
      return {
        mark: String(i),
        words: `${one.tagName} ${(one.textContent || one.name).trim().slice(0, 40)}`,
      };
    });
  });
}

function focused(within: Page): Promise<{ mark: string; words: string; isShown: boolean } | null> {
  return within.evaluate(() => {
    const one = document.activeElement as HTMLInputElement | null;
    if (!one || one === document.body) return null;
    const { outlineStyle, outlineWidth } = getComputedStyle(one);
    // Inside a field of a date the browser shows which part has it.
    const isShown = (outlineStyle !== 'none' && Number.parseFloat(outlineWidth) > 0) || one.type === 'date';
    return {
      mark: one.dataset.mark ?? '',
      words: `${one.tagName} ${(one.textContent || one.name).trim().slice(0, 40)}`,
      isShown,
    };
  });
}
