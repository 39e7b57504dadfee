import { AxeBuilder } from '@axe-core/playwright';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countySlug } from '@/app/view/county-slug';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';
import { openBrowser } from './support/browser';
import { releasedPlace } from './support/released-truth';
import { openSite, type Site } from './support/site';

let site: Site;
let browser: Browser;
beforeAll(async () => {
  [site, browser] = await Promise.all([openSite(), openBrowser()]);
}, 300_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

const get = (path: string) => fetch(site.url + path);

describe('the page of a county', () => {
  it('is the same by its code and by its name', async () => {
    const { county: place } = await releasedPlace(site.ownerUrl, 'published');
    const county = place;
    const region = loadRegion({ name: 'All', states: states().map(({ code }) => code) });
    const slug = countySlug(region.counties.find(({ fips }) => fips === county)!);
    const [byCode, byName] = await Promise.all([get(`/counties/${county}`), get(`/counties/${slug}`)]);
    expect(byCode.status).toBe(200);
    expect(byName.status).toBe(200);
    const heading = (html: string) => /<h1>(.*?)<\/h1>/.exec(html)![1];
    expect(heading(await byName.text())).toBe(heading(await byCode.text()));
  });

  it.each([1280, 360])(
    'has no fault of access and does not scroll sideways at %i px, light and dark',
    async (width) => {
      const { county: place } = await releasedPlace(site.ownerUrl, 'published');
      for (const colorScheme of ['light', 'dark'] as const) {
        const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme });
        const page = await context.newPage();
        await page.goto(`${site.url}/counties/${place}`);
        const { violations } = await new AxeBuilder({ page }).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(over).toBeLessThanOrEqual(0);
        await context.close();
      }
    },
  );

  it('says of a withheld count that it is not public, and shows no number of it', async () => {
    const { county: place } = await releasedPlace(site.ownerUrl, 'withheld');
    const html = await (await get(`/counties/${place}`)).text();
    expect(html).toContain('not public');
  });

  it('carries the cautions, advice, a paragraph to copy, its feed, and a description for search engines', async () => {
    const { county: place } = await releasedPlace(site.ownerUrl, 'published');
    const county = place;
    const html = await (await get(`/counties/${county}`)).text();
    for (const text of ['Before you act on this', 'Before you send seed', 'After a find', '<textarea'])
      expect(html).toContain(text);
    expect(html).toContain(`/feeds/counties/${county}.atom`);
    const described = /<script type="application\/ld\+json">(.*?)<\/script>/.exec(html)![1]!;
    expect(JSON.parse(described)).toMatchObject({ '@type': 'Dataset' });
  });

  it.each(['99999', 'nowhere-ne', '%3Cscript%3E'])(
    'of %s is a list of the counties that there are',
    async (asked) => {
      const response = await get(`/counties/${asked}`);
      expect(response.status).toBe(404);
      const html = await response.text();
      expect(html).toContain('There is no county');
      expect(html).not.toContain('<script>%3C');
    },
  );
});

it('no two counties of a state share the name of their page', () => {
  const { counties } = loadRegion({ name: 'All', states: states().map(({ code }) => code) });
  const names = counties.map(countySlug);
  expect(new Set(names).size).toBe(names.length);
});
