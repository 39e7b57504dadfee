import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import postgres from 'postgres';
import { afterAll, beforeAll, beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { speechIn } from '@/app/messages/texts';
import { openBrowser } from './support/browser';
import { openSite, type Site } from './support/site';
import { textsIn } from './support/texts-in';
import { type Watch, watch } from './support/watch';

interface Row {
  place: string;
  group: number;
  first: number;
  tested: number | null;
  resistant: number | null;
}

let site: Site;
let browser: Browser;
/** Cells of kochia by district in the newest window, and by region and season for group 27. */
let cells: { districts: Row[]; seasons: Row[] };
beforeAll(async () => {
  [site, browser] = await Promise.all([openSite(), openBrowser({ graphics: false })]);
  const sql = postgres(site.ownerUrl, { max: 1, onnotice: () => {} });
  const pick = sql`select place, group_number as "group", period_first as first, tested, resistant from release.cell`;
  const own = sql`where species = 'KCHSC' and assay = 'whole plant' and design is null`;
  cells = {
    districts: await sql<
      Row[]
    >`${pick} ${own} and place_kind = 'district' and period_first = 2022 and period_last = 2024`,
    seasons: await sql<
      Row[]
    >`${pick} ${own} and place_kind = 'region' and group_number = 27 and period_first = period_last`,
  };
  await sql.end();
}, 300_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

let watched: Watch;
let page: Page;
beforeEach(async () => {
  page = await open();
});

async function open(options: Parameters<Browser['newContext']>[0] = {}): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
  onTestFinished(() => context.close());
  watched = watch(context, new URL(site.url).origin);
  return context.newPage();
}

const PAGES = ['/weeds', '/weeds/KCHSC', '/trends?species=KCHSC&group=27'];

describe('the page of a weed', () => {
  it('is reached from the list of weeds, by code or by name, and shows what is in the release', async () => {
    await page.goto(`${site.url}/weeds`);
    await page.getByRole('link', { name: 'Kochia', exact: true }).click();
    await page.waitForURL('**/weeds/KCHSC');
    const heading = await page.locator('h1').textContent();
    await page.goto(`${site.url}/weeds/kochia`);
    expect(await page.locator('h1').textContent()).toBe(heading);
    expect(cells.districts.length).toBeGreaterThan(20);
    const table = page.getByRole('table', { name: /^Kochia: resistant of screened/ });
    expect(await table.first().getByRole('columnheader').allTextContents()).toEqual([
      'Place',
      'Group 9',
      'Group 27',
    ]);
    const numbers = new Map(
      cells.districts.map(({ place, group, tested, resistant }) => [
        `${place}|${group}`,
        tested === null ? 'withheld' : `${resistant} of ${tested}`,
      ]),
    );
    const rows = await table
      .getByRole('row')
      .filter({ has: page.locator('a[href*="place="]') })
      .all();
    expect(rows.length).toBeGreaterThan(20);
    let compared = 0;
    for (const row of rows) {
      const place = new URL((await row.locator('a').getAttribute('href'))!, site.url).searchParams.get(
        'place',
      );
      if (place!.length === 2) continue;
      const said = await row.getByRole('cell').allTextContents();
      for (const [i, group] of [9, 27].entries()) {
        compared++;
        expect(said[i], `${place} ${group}`).toContain(numbers.get(`${place}|${group}`) ?? 'not screened');
      }
    }
    expect(compared).toBeGreaterThan(40);
    expect(watched.foreign).toEqual([]);
    expect(watched.complaints).toEqual([]);
  });

  it('gives no number for a withheld cell, which looks the same in each place', async () => {
    await page.goto(`${site.url}/weeds/KCHSC`);
    const hidden = page.locator('section:has(#actives-heading) td', { hasText: 'withheld' });
    expect(await hidden.count()).toBe(2);
    const looks = await hidden.evaluateAll((all) =>
      all.map((one) => one.innerHTML.replace(/(other )?invented active/g, '')),
    );
    expect(new Set(looks).size).toBe(1);
    expect(looks[0]!.replace(/<svg.*<\/svg>/s, '')).not.toMatch(/\d/);
  });

  it('keeps its window in the address, and says what it does not have', async () => {
    await page.goto(`${site.url}/weeds/KCHSC`);
    await page.getByRole('link', { name: '2019–2021', exact: true }).click();
    await page.waitForURL('**/weeds/KCHSC?window=2019-2021&release=1');
    expect(await page.locator('.window-links [aria-current]').textContent()).toBe('2019–2021');
    await page.goto(`${site.url}/weeds/KCHSC?window=1999-2001`);
    expect(await page.getByRole('status').textContent()).toContain('1999-2001');
  });

  it('of a weed that was not screened still tells how to know it, and an unknown one is not found', async () => {
    await page.goto(`${site.url}/weeds/waterhemp`);
    expect(await page.locator('main').textContent()).toMatch(
      /No waterhemp stands in this release.*only female plants/s,
    );
    const response = await page.goto(`${site.url}/weeds/nonsense`);
    expect(response!.status()).toBe(404);
    expect(await page.getByRole('link', { name: 'Kochia (Bassia scoparia)' }).count()).toBe(1);
  });

  it('tells actives of a group apart, and how many groups a population is resistant to', async () => {
    await page.goto(`${site.url}/weeds/KCHSC`);
    await page.getByText('Group 9: invented active and other invented active, by district').click();
    const table = page.getByRole('table', { name: /^Group 9 by active/ });
    expect(await table.getByRole('columnheader').allTextContents()).toEqual([
      'Place',
      'invented active',
      'other invented active',
    ]);
    expect(await table.getByRole('cell', { name: 'withheld' }).count()).toBe(2);
    const several = page.locator('section:has(#multiple-heading)');
    expect(await several.locator('p').first().textContent()).toMatch(
      /^Of 40 .*12 were resistant to two or more/,
    );
    await several.locator('summary').click();
    expect(await several.getByRole('row', { name: /Nebraska/ }).textContent()).toBe('Nebraskawithheld');
  });

  it('shows a block for each place on a phone, with the group named in each cell', async () => {
    page = await open({ viewport: { width: 360, height: 800 } });
    await page.goto(`${site.url}/weeds/KCHSC`);
    const cell = page.locator('.strip-table td').first();
    expect(await cell.locator('.cell-group').isVisible()).toBe(true);
    const [row, first] = [
      await page.locator('.strip-table tbody tr').first().boundingBox(),
      await cell.boundingBox(),
    ];
    expect(row!.width).toBeLessThanOrEqual(360);
    expect(first!.width).toBeGreaterThan(80);
  });

  it('folds districts on a phone, and shows them all on paper, without script too', async () => {
    page = await open({ viewport: { width: 360, height: 800 }, javaScriptEnabled: false });
    await page.goto(`${site.url}/weeds/KCHSC`);
    const rows = page.locator('.fold .strip-table tbody tr');
    const seen = () => rows.evaluateAll((all) => all.filter((row) => row.checkVisibility()).length);
    expect(await rows.count()).toBeGreaterThan(20);
    expect(await seen()).toBe(0);
    const fold = page.locator('.fold').filter({ hasText: 'Districts of Nebraska' });
    await fold.locator('summary').click();
    expect(await seen()).toBe(await fold.locator('tbody tr').count());
    await page.emulateMedia({ media: 'print' });
    expect(await seen()).toBe(await rows.count());
  });
});

describe('the page of trends', () => {
  it('shows the seasons of the release, hatched where they are withheld', async () => {
    await page.goto(`${site.url}/trends?species=KCHSC&group=27`);
    const chart = page.locator('figure').filter({ hasText: 'Share resistant' }).first();
    await chart.locator('summary').click();
    for (const { first, tested, resistant } of cells.seasons) {
      const row = chart
        .getByRole('row')
        .filter({ has: page.getByRole('rowheader', { name: new RegExp(`^${first}`) }) });
      const said = (await row.textContent())!;
      expect(said).toContain(tested === null ? 'withheld' : `${tested}${resistant}`);
    }
    expect(await chart.locator('svg .withheld').count()).toBe(
      cells.seasons.filter(({ tested }) => tested === null).length,
    );
    expect(await chart.locator('svg .mark.open').count()).toBe(1);
    expect(watched.foreign).toEqual([]);
    expect(watched.complaints).toEqual([]);
  });

  it('changes by its form, in its address, and by keyboard alone', async () => {
    await page.goto(`${site.url}/trends`);
    expect(await page.locator('.site-nav [aria-current="page"]').textContent()).toBe('Trends');
    const before = await page.locator('h1').textContent();
    const tabTo = async (selector: string) => {
      for (let i = 0; i < 40; i++) {
        await page.keyboard.press('Tab');
        if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
      }
      throw new Error(`No way by keyboard to ${selector}`);
    };
    await tabTo('select[name="pair"]');
    await page.keyboard.press('End');
    await page.waitForURL(/pair=KCHSC-27/);
    await expect.poll(() => page.locator('h1').textContent(), { timeout: 20_000 }).not.toBe(before);
    await tabTo('figure summary');
    await page.keyboard.press('Enter');
    expect(await page.locator('figure details[open] table').first().isVisible()).toBe(true);
  });

  it('tells crops of a state apart, with numbers and intervals, withheld where they are', async () => {
    await page.goto(`${site.url}/trends?species=KCHSC&group=27&place=KS`);
    const crops = page.locator('section:has(#crops-heading)');
    expect(await crops.locator('figcaption').allTextContents()).toEqual(['Wheat', 'Corn']);
    expect(await crops.locator('.reading').last().textContent()).toContain('Nothing public: fallow.');
    const wheat = crops.locator('figure').first();
    expect(await wheat.locator('.chart-note').textContent()).toMatch(
      /^2024: 5 of 19, 26.% \(12\u2060?–\u2060?49.%\)$/,
    );
    await wheat.locator('summary').click();
    expect(await wheat.getByRole('row', { name: /^2021/ }).textContent()).toBe('2021withheld');
    expect(await wheat.locator('svg .withheld').count()).toBe(1);
  });

  it('is folded by state and weed on a phone, open where there is room and on paper', async () => {
    const isSeen = () =>
      page
        .locator('.fold .panel-grid')
        .evaluateAll((grids) => grids.map((grid) => grid.checkVisibility({ contentVisibilityAuto: true })));
    await page.goto(`${site.url}/trends?species=KCHSC&group=27`);
    const wide = await isSeen();
    expect(wide.length).toBeGreaterThan(5);
    expect(wide.every(Boolean)).toBe(true);
    expect(await page.locator('.fold > details > summary').first().isVisible()).toBe(false);
    await page.setViewportSize({ width: 360, height: 780 });
    expect((await isSeen()).some(Boolean)).toBe(false);
    const part = page.locator('section:has(#panels-heading) .fold').first();
    await part.locator('summary').first().click();
    expect(await part.locator('figure').first().isVisible()).toBe(true);
    await page.emulateMedia({ media: 'print' });
    expect((await isSeen()).every(Boolean)).toBe(true);
  });

  it('leads from each district to its own trends', async () => {
    await page.goto(`${site.url}/trends?species=KCHSC&group=27`);
    const link = page.locator('section:has(#panels-heading) figcaption a').first();
    const name = (await link.textContent())!;
    await link.click();
    await page.waitForURL(/place=/);
    expect(await page.locator('h1').textContent()).toContain(name);
  });
});

describe('the list of counties', () => {
  it('finds one by the beginning of its name, while one types and as a plain form', async () => {
    await page.goto(`${site.url}/counties`);
    const field = page.getByRole('combobox', { name: 'Find a county' });
    // What is typed before the page's script runs is nobody's to answer.
    await expect
      .poll(
        async () => {
          await field.fill('');
          await field.pressSequentially('red wil');
          return page.getByRole('option', { name: /^Red Willow/ }).count();
        },
        { timeout: 30_000 },
      )
      .toBe(1);
    await field.press('Enter');
    await page.waitForURL('**/counties/31145');
    page = await open({ javaScriptEnabled: false });
    await page.goto(`${site.url}/es/counties`);
    await page.locator('input[name="find"]').fill('Red Willow');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/es/counties/31145');
  });

  it('says which counties go by a name, and that none does', async () => {
    await page.goto(`${site.url}/counties?find=lincoln`);
    expect(await page.getByRole('status').first().textContent()).toMatch(
      /Lincoln County, CO.*Lincoln County, SD/,
    );
    await page.goto(`${site.url}/counties?find=atlantis`);
    expect(await page.getByRole('status').first().textContent()).toContain('no county “atlantis”');
    await page.goto(`${site.url}/counties?find=%20`);
    expect(await page.locator('.counties a').count()).toBeGreaterThan(300);
  });
});

describe.each(PAGES)('%s', (path) => {
  it.each([
    ['light', 1280],
    ['dark', 1280],
    ['light', 360],
    ['dark', 360],
  ] as const)(
    'has nothing that axe finds, %s at %i pixels, and fits the screen',
    async (colorScheme, width) => {
      page = await open({ colorScheme, viewport: { width, height: 900 } });
      await page.goto(site.url + path);
      // One table of each kind: the others of a section are made alike.
      await page.evaluate(() => {
        for (const section of document.querySelectorAll('section')) {
          const details = section.querySelector('details');
          if (details) details.open = true;
        }
      });
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    },
  );

  it('has no words over each other in its charts on a phone', async () => {
    page = await open({ viewport: { width: 360, height: 900 } });
    await page.goto(site.url + path);
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll<HTMLDetailsElement>('.fold > details')) fold.open = true;
    });
    const over = await page.evaluate(() =>
      [...document.querySelectorAll('svg.trend')].flatMap((svg) => {
        const boxes = [...svg.querySelectorAll('text')].map(
          (text) => [text.textContent, text.getBoundingClientRect()] as const,
        );
        return boxes.flatMap(([a, one], i) =>
          boxes
            .slice(i + 1)
            .filter(([, { left, right, top, bottom }]) => {
              const across = Math.min(one.right, right) - Math.max(one.left, left);
              const down = Math.min(one.bottom, bottom) - Math.max(one.top, top);
              // Boxes of lines hold room above and below the letters.
              return across > 0 && down > one.height * 0.35;
            })
            .map(([b]) => `${a} | ${b}`),
        );
      }),
    );
    expect(over).toEqual([]);
  });

  it('says nothing in English on its Spanish page but names', async () => {
    await page.goto(`${site.url}/es${path}`);
    const said = await page.evaluate(() => {
      for (const foreign of document.querySelectorAll('[lang="en"], [lang="la"], script, style'))
        foreign.remove();
      const names = [...document.querySelectorAll('svg title, svg desc')].map(
        ({ textContent }) => textContent,
      );
      return `${document.body.innerText} ${names.join(' ')}`.replaceAll('\u00a0', ' ');
    });
    const [english, spanish] = (['en', 'es'] as const).map((language) => textsIn(speechIn(language).texts));
    const own = [...english!]
      .filter(([key, text]) => text.length > 5 && spanish!.get(key) !== text)
      .map(([, text]) => text.replaceAll('\u00a0', ' '));
    expect(own.length).toBeGreaterThan(100);
    expect(
      own.filter((text) => new RegExp(`(^|[^\\p{L}])${literally(text)}($|[^\\p{L}])`, 'u').test(said)),
    ).toEqual([]);
    expect(said).not.toMatch(/\b(the|was|were|with|screened|districts?|counties|of|and)\b/);
  });

  it('has its charts, tables and links without script', async () => {
    page = await open({ javaScriptEnabled: false });
    await page.goto(site.url + path);
    expect(await page.locator('main svg').count()).toBeGreaterThan(5);
    expect(await page.locator('main a').count()).toBeGreaterThan(1);
  });
});

function literally(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
