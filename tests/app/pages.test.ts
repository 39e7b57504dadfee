import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { openBrowser } from './support/browser';
import { layOutAll } from './support/lay-out-all';
import { releasedCounty } from './support/released-truth';
import { openSite, type Site } from './support/site';

let site: Site;
let browser: Browser;
let paths: string[];
beforeAll(async () => {
  [site, browser] = await Promise.all([openSite(), openBrowser({ graphics: false })]);
  const hidden = await releasedCounty(site.ownerUrl, 'all withheld', []);
  const busy = await releasedCounty(site.ownerUrl, 'most cells', []);
  paths = [
    ...['/', '/weeds', '/trends', '/counties', `/counties/${hidden}`, `/counties/${busy}`],
    ...['/methods', '/privacy', '/words', '/releases', '/releases/1', '/releases/77', '/counties/nowhere'],
    ...['/no-such-page', '/offline', '/api'],
  ];
}, 300_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

const inSpanish = (path: string) => (path === '/' ? '/es' : `/es${path}`);
const PAGES = 16;
/** Two pages looked through by axe, on a machine that does other things too. */
const LOOK = 240_000;
const each = Array.from({ length: PAGES }, (_, i) => i);

async function open(path: string, options: Parameters<Browser['newContext']>[0]): Promise<Page> {
  const context = await browser.newContext(options);
  onTestFinished(() => context.close());
  const page = await context.newPage();
  await page.goto(site.url + path);
  return page;
}

async function faultsOf(page: Page): Promise<string[]> {
  await layOutAll(page);
  const { violations } = await new AxeBuilder({ page })
    .options({ rules: { 'target-size': { enabled: true } } })
    .analyze();
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`));
}

const sideways = (page: Page) =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

describe('every public page', () => {
  it('is on the list', () => {
    expect(paths).toHaveLength(PAGES);
  });

  it.each(each)(
    'has no fault of access: wide and light, narrow, dark and Spanish (page %i)',
    async (i) => {
      const wide = await open(paths[i]!, { viewport: { width: 1280, height: 900 }, colorScheme: 'light' });
      expect(await faultsOf(wide)).toEqual([]);
      expect(await wide.evaluate(() => document.documentElement.lang)).toBe('en');
      const narrow = await open(inSpanish(paths[i]!), {
        viewport: { width: 360, height: 740 },
        colorScheme: 'dark',
      });
      expect(await faultsOf(narrow)).toEqual([]);
      expect(await narrow.evaluate(() => document.documentElement.lang)).toBe('es');
      expect(await narrow.locator('h1').count()).toBe(1);
    },
    LOOK,
  );

  it(
    'needs no scrolling sideways at 320 px, as wide as 1280 px enlarged four times',
    async () => {
      const page = await open('/words', { viewport: { width: 320, height: 640 } });
      for (const path of [...paths, ...paths.map(inSpanish)]) {
        await page.goto(site.url + path);
        expect({ path, over: await sideways(page) }).toEqual({ path, over: 0 });
      }
    },
    LOOK,
  );

  it.each(each)('says no English sentence of ours in Spanish (page %i)', async (i) => {
    const html = await (await fetch(site.url + inSpanish(paths[i]!))).text();
    const english = sentencesOf(html).filter((words) => ENGLISH.test(words));
    expect(english).toEqual([]);
  });

  it('is there without script, numbers, tables and pictures too', async () => {
    const page = await open('/', { javaScriptEnabled: false });
    for (const path of paths) {
      await page.goto(site.url + path);
      expect((await page.locator('main').textContent())!.length).toBeGreaterThan(60);
    }
    await page.goto(site.url);
    expect(await page.locator('svg.map [data-place]').count()).toBeGreaterThan(50);
  });

  it('moves nothing by itself where less motion is asked for', async () => {
    const page = await open('/', { reducedMotion: 'reduce' });
    expect(await page.evaluate(() => document.getAnimations().length)).toBe(0);
  });

  it('keeps its marks apart where the reader’s system chooses the colours', async () => {
    const page = await open(paths[5]!, { forcedColors: 'active' });
    const styles = await page
      .locator('.glance > div')
      .evaluateAll((boxes) => boxes.map((box) => getComputedStyle(box).borderLeftStyle));
    expect(new Set(styles).size).toBe(styles.length);
    expect(await faultsOf(page)).toEqual([]);
  });
});

describe('an address that leads nowhere', () => {
  it.each([
    ['/counties/nowhere-ne', 404, 'There is no county', '/counties/'],
    ['/methods/more', 404, 'There is no such page', '/'],
    ['/es/privacy/x', 404, 'No existe esa página', '/es'],
    ['/%E0%A4%A', 404, 'There is no such page', '/'],
    ['/es/%E0%A4%A', 404, 'No existe esa página', '/es'],
    ['/counties/%E0%A4%A', 404, 'There is no county “%E0%A4%A” here', '/counties/'],
    ['/es/counties/100%', 404, 'Aquí no hay ningún condado «100%»', '/es/counties/'],
    ['/counties/%00', 404, 'There is no county “%00” here', '/counties/'],
    ['/weeds/%E0%A4%A', 404, 'There is no weed “%E0%A4%A” here', '/weeds/'],
    ['/releases/%E0%A4%A', 404, 'There is no release “%E0%A4%A”', '/releases/'],
    ['/trends?release=%E0%A4%A', 404, 'There is no release', '/releases/'],
    ['/trends?species=ZZZZZ&place=%E0', 200, 'This release has no weed “ZZZZZ”', '/trends'],
    ['/weeds/KCHSC?window=1900-1902', 200, 'no run of seasons “1900-1902”', '/weeds/KCHSC'],
    ['/?window=1900', 200, 'no run of seasons “1900”', '/'],
  ])('says so, and what there is: %s', async (path, status, words, way) => {
    const response = await fetch(site.url + path);
    expect(response.status).toBe(status);
    const html = await response.text();
    expect(html).toContain(words);
    expect(html).toContain(`href="${way}`);
  });

  it.each([
    '/api/v1/%E0%A4%A',
    '/feeds/%E0%A4%A',
    '/outlines/%E0%A4%A',
    '/releases/1/%E0%A4%A',
    '/_next/%E0%A4%A',
  ])('is not found where programs ask, however it is encoded: %s', async (path) => {
    expect((await fetch(site.url + path)).status).toBe(404);
  });

  it.each(['/counties/31055', '/es/releases/1', '/methods', '/weeds/KCHSC', '/trends'])(
    'tells of a query of 100 kB that it is too long (%s)',
    async (path) => {
      const response = await fetch(`${site.url}${path}?x=${'x'.repeat(14_000)}`);
      expect([200, 414]).toContain(response.status);
      const huge = await fetch(`${site.url}${path}?x=${'x'.repeat(100_000)}`);
      expect([414, 431]).toContain(huge.status);
    },
  );
});

describe('by keyboard alone', () => {
  it('a reader gets past the head of a page, to a county by its list, and to the counties next door', async () => {
    const page = await open('/', { viewport: { width: 1280, height: 900 } });
    await page.keyboard.press('Tab');
    expect(await focused(page)).toMatchObject({ text: 'Skip to the findings', outlined: true });
    await page.keyboard.press('Enter');
    await expect.poll(() => new URL(page.url()).hash).toBe('#content');
    await page.goto(site.url);
    await tabTo(page, 'Counties');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/counties$/);
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await tabTo(page, 'Cheyenne');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/counties\/cheyenne-/);
    const county = await page.locator('h1').textContent();
    const [beside] = await page.locator('.next-door li a').allTextContents();
    await tabTo(page, beside!);
    await page.keyboard.press('Enter');
    await expect.poll(() => page.locator('h1').textContent(), { timeout: 20_000 }).not.toBe(county);
    expect(await page.locator('h1').textContent()).toContain(beside);
  });
});

async function tabTo(page: Page, text: string) {
  for (let presses = 0; presses < 400; presses++) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    expect(at.outlined, `“${at.text}” shows no focus`).toBe(true);
    if (at.text === text) return;
  }
  throw new Error(`No way by Tab to “${text}”.`);
}

function focused(page: Page): Promise<{ text: string; outlined: boolean }> {
  return page.evaluate(() => {
    const element = document.activeElement as HTMLElement;
    const { outlineStyle, outlineWidth } = getComputedStyle(element);
    const outlined = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
    return { text: element.textContent?.trim() ?? '', outlined };
  });
}

/** Words that Spanish does not have. */
const ENGLISH =
  /\b(the|of|and|were|was|that|with|which|this|from|screened|counties|nobody|would|been|are)\b/i;

/** What a page says in its own language, text by text: no scripts, names of files, or what is marked as English. */
function sentencesOf(html: string): string[] {
  let rest = html.replace(/<(script|style|code|pre)\b[\s\S]*?<\/\1>/g, ' ');
  for (let before = ''; before !== rest; ) {
    before = rest;
    rest = rest.replace(/<(\w+)\b[^>]*\slang="en"[^>]*>(?:(?!<\1\b)[\s\S])*?<\/\1>/g, ' ');
  }
  const body = rest.slice(rest.indexOf('<body'));
  const labels = [...body.matchAll(/\s(?:aria-label|title|alt|placeholder)="([^"]*)"/g)].map(
    ([, words]) => words!,
  );
  return [...body.split(/<[^>]+>/), ...labels].map((words) => words.trim()).filter(Boolean);
}
