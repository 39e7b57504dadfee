import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { openBrowser } from './support/browser';
import { releasedPlace } from './support/released-truth';
import { openSite, type Site } from './support/site';
import { watch } from './support/watch';

let site: Site;
let browser: Browser;
let county: string;
beforeAll(async () => {
  [site, browser] = await Promise.all([openSite(), openBrowser({ graphics: false })]);
  ({ county } = await releasedPlace(site.ownerUrl, 'published'));
}, 300_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

const WAIT = { timeout: 30_000 };

async function openContext(): Promise<BrowserContext> {
  const context = await browser.newContext({ locale: 'en-US' });
  onTestFinished(() => context.close());
  return context;
}

/** A page that was opened and kept. */
async function visited(context: BrowserContext, path: string) {
  const page = await context.newPage();
  await page.goto(site.url + path);
  await expect
    .poll(
      () =>
        page.evaluate(async (address) => {
          const pages = await caches.open('county-pages-1');
          return Boolean(await pages.match(address));
        }, path),
      WAIT,
    )
    .toBe(true);
  return page;
}

describe('without signal', () => {
  it.each([
    ['', 'Read without signal: this page was kept on', 'No signal'],
    ['/es', 'Leída sin señal: esta página se guardó el', 'Sin señal'],
  ])(
    'a visited page of a county is read with its styles, and says how old it is; others say what there is (%s)',
    async (language, note, none) => {
      const context = await openContext();
      const path = `${language}/counties/${county}`;
      const page = await visited(context, path);
      const read = await page.locator('.found').textContent();
      const colour = await page.evaluate(() => getComputedStyle(document.body).fontFamily);
      await context.setOffline(true);
      const { complaints } = watch(context, new URL(site.url).origin);

      await page.goto(site.url + path);
      expect(await page.locator('.kept-note').textContent()).toMatch(
        new RegExp(`^${note} .*${new Date().getFullYear()}.*\\d:\\d\\d`),
      );
      expect(await page.locator('.found').textContent()).toBe(read);
      expect(await page.evaluate(() => getComputedStyle(document.body).fontFamily)).toBe(colour);
      expect(await page.locator('script').count()).toBe(0);
      const { violations } = await new AxeBuilder({ page }).analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);

      await page.goto(`${site.url}${language}/counties/20001`);
      expect(await page.locator('h1').textContent()).toBe(none);
      expect(await page.locator('#kept a').getAttribute('href')).toBe(path);
      await page.goto(`${site.url}${language}/methods`);
      expect(await page.locator('h1').textContent()).toBe(none);
      expect(complaints.filter((words) => !words.includes('503'))).toEqual([]);
    },
  );

  it('nothing is said to be kept as soon as the network answers again', async () => {
    const context = await openContext();
    const page = await visited(context, `/counties/${county}`);
    await context.setOffline(true);
    await page.reload();
    await page.locator('.kept-note').waitFor(WAIT);
    await context.setOffline(false);
    await page.reload();
    expect(await page.locator('.kept-note').count()).toBe(0);
    expect(await page.locator('script').count()).toBeGreaterThan(0);
  });

  it('keeps pages of counties and nothing else: not the map, not the staff side, no answer to programs', async () => {
    const context = await openContext();
    const page = await visited(context, `/counties/${county}`);
    for (const path of ['/', '/releases', '/staff', '/api/v1/releases', '/counties'])
      await page.goto(site.url + path).catch(() => {});
    await page.goto(`${site.url}/methods`);
    const kept = await page.evaluate(async () => {
      const names = await caches.keys();
      const lists = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
      return lists.flat().map(({ url }) => new URL(url).pathname);
    });
    const pages = kept.filter((path) => !path.startsWith('/_next/static/') && path !== '/mark.svg');
    expect(pages.sort()).toEqual([`/counties/${county}`, '/es/offline', '/offline'].sort());
  });
});
