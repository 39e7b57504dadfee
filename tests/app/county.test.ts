import { AxeBuilder } from '@axe-core/playwright';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { countySlug } from '@/app/view/county-slug';
import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';
import { readPdf } from '../support/read-pdf';
import { openBrowser } from './support/browser';
import { releasedCounty, releasedPlace } from './support/released-truth';
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

  it.each([
    ['/counties', 'what was found cannot be shown', 'It says nothing about what was found'],
    ['/es/counties', 'lo que se encontró no se puede mostrar', 'Eso no dice nada de lo que se encontró'],
  ])(
    'says of a county where all is withheld why, in general words, and what is public around it (%s)',
    async (path, what, why) => {
      const county = await releasedCounty(site.ownerUrl, 'all withheld', []);
      const response = await get(`${path}/${county}`);
      expect(response.status).toBe(200);
      const html = await response.text();
      expect(html).toContain(what);
      expect(html).toContain(why);
      const found = html.slice(html.indexOf('id="found-heading"'), html.indexOf('id="change-heading"'));
      const own = [...found.matchAll(/<dd>(?:not public|no público)/g)];
      expect(own.length).toBeGreaterThan(0);
      expect(own).toHaveLength([...found.matchAll(/class="line"/g)].length);
    },
  );

  it.each([
    ['/counties', 'nobody can say from here what is there', 'which is not the same as none found'],
    [
      '/es/counties',
      'desde aquí nadie puede decir qué hay allí',
      'que no es lo mismo que no haber encontrado nada',
    ],
  ])(
    'says of a county with nothing screened that nothing is known, and how to be the first (%s)',
    async (path, what, not) => {
      const region = loadRegion({ name: 'Basin', states: ['CO', 'KS', 'NE', 'SD'] });
      const fips = region.counties.map((county) => county.fips);
      const county = await releasedCounty(site.ownerUrl, 'nothing screened', fips);
      const response = await get(`${path}/${county}`);
      expect(response.status).toBe(200);
      const html = await response.text();
      expect(html).toContain(what);
      expect(html).toContain(not);
      expect(html).not.toContain('class="line"');
      expect(html).toMatch(/be the first|ser el primero/);
    },
  );

  it.each(['/counties', '/es/counties'])('is one sheet of paper, even with most on it (%s)', async (path) => {
    const county = await releasedCounty(site.ownerUrl, 'most cells', []);
    const page = await browser.newPage();
    await page.goto(`${site.url}${path}/${county}`);
    for (const format of ['Letter', 'A4']) {
      const { pages } = await readPdf(await page.pdf({ format }));
      expect(pages).toHaveLength(1);
    }
    // As full as the fullest county of the demonstration: 17 groups of 6 weeds, 4 with none found, 4 known by district alone.
    const taken = await page.evaluate(() => {
      document.querySelector('main')!.classList.add('crowded');
      const count = (what: string) => document.querySelectorAll(what).length;
      const lines = () =>
        count('.line') + count('.line dd small') + count('.found .weed') + 2 * count('.clean li');
      const last = [...document.querySelectorAll('.line')].at(-1)!;
      while (lines() < 35) last.after(last.cloneNode(true));
      return lines();
    });
    expect(taken).toBeLessThan(40);
    for (const format of ['Letter', 'A4']) {
      const { pages } = await readPdf(await page.pdf({ format }));
      expect(pages).toHaveLength(1);
    }
    await page.close();
  });

  it('copies its paragraph, and names the counties next door with the ways to their pages', async () => {
    const county = await releasedCounty(site.ownerUrl, 'most cells', []);
    const context = await browser.newContext({ permissions: ['clipboard-read', 'clipboard-write'] });
    const page = await context.newPage();
    await page.goto(`${site.url}/counties/${county}`);
    await page.getByRole('button', { name: 'Copy this text' }).click();
    await page.getByText('Copied.').waitFor();
    const copied = await page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toBe(await page.locator('#letter').inputValue());
    const beside = page.getByRole('navigation', { name: 'Next door' }).getByRole('link');
    const name = await beside.first().textContent();
    await beside.first().click();
    await page.waitForURL(/\/counties\/[a-z-]+$/);
    expect(await page.locator('h1').textContent()).toContain(name);
    await context.close();
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
