import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it, onTestFinished } from 'vitest';
import { purposeOf } from '@/lib/release/files/purposes';
import { blockDifference } from './support/block-difference';
import { openBrowser } from './support/browser';
import { inkedOutline } from './support/inked-outline';
import { layOutAll } from './support/lay-out-all';
import { type ReleasedPlace, releasedPlace } from './support/released-truth';
import { openSite, type Site } from './support/site';
import { type Watch, watch } from './support/watch';

let site: Site;
let browser: Browser;
let hidden: ReleasedPlace;
let shown: ReleasedPlace;
beforeAll(async () => {
  [site, browser] = await Promise.all([openSite(), openBrowser()]);
  hidden = await releasedPlace(site.ownerUrl, 'withheld');
  shown = await releasedPlace(site.ownerUrl, 'published');
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

/** A page of its own browser context, watched, closed with its test. */
async function open(options: Parameters<Browser['newContext']>[0] = {}, within = browser): Promise<Page> {
  const context: BrowserContext = await within.newContext({
    viewport: { width: 1280, height: 900 },
    ...options,
  });
  onTestFinished(() => context.close());
  watched = watch(context, new URL(site.url).origin);
  return context.newPage();
}

/** Of the view, be it below that of the front page or by itself. */
const HEADLINE = '.headline :is(h1, h2)';

/** What a busy machine shows late is right too. */
const eventually = (read: () => unknown) => expect.poll(read, { timeout: 20_000 });

const address = () => new URL(page.url()).searchParams;
const options = (label: string) =>
  page
    .getByLabel(label, { exact: true })
    .evaluate((list: HTMLSelectElement) => [...list.options].map((o) => o.value));
const choose = async (label: string, value: string) => {
  const parameter = {
    Weed: 'species',
    'Herbicide site of action': 'group',
    Seasons: 'window',
    Place: 'place',
  }[label]!;
  await page.getByLabel(label, { exact: true }).selectOption(value);
  await eventually(() => address().get(parameter)).toBe(value);
  await page.locator('form[aria-busy="false"]').waitFor();
};
const live = () => page.locator('[data-map="live"]').waitFor({ timeout: 30_000 });

/**
 * A place near the middle of the map whose outline is not dark before it is chosen, and a point in it. Not the one in the
 * very middle: the keyboard's cross may lie on it.
 */
async function lightPlace(): Promise<{ key: string; x: number; y: number }> {
  const places = await page.evaluate(() => {
    const frame = document.querySelector('.map-stage')!.getBoundingClientRect();
    const middle = ({ x, y, width, height }: DOMRect) => ({ x: x + width / 2, y: y + height / 2 });
    const centre = middle(frame);
    const holds = ({ left, right, top, bottom }: DOMRect) =>
      left <= centre.x && centre.x <= right && top <= centre.y && centre.y <= bottom;
    return [...document.querySelectorAll<SVGElement>('svg.map [data-place]')]
      .filter((area) => /look-(blank|clean|hidden)/.test(area.getAttribute('class')!))
      .map((area) => ({ key: area.dataset.place!, box: area.getBoundingClientRect() }))
      .filter(({ key, box }) => !key.includes('+') && !holds(box))
      .map(({ key, box }) => ({ key, ...middle(box) }))
      .sort((a, b) => Math.hypot(a.x - centre.x, a.y - centre.y) - Math.hypot(b.x - centre.x, b.y - centre.y))
      .slice(0, 12);
  });
  for (const place of places) if ((await inkedOutline(page, place.key)) < 0.4) return place;
  throw new Error('Every light place near the middle has dark neighbours.');
}

describe('the public page', () => {
  it('shows another weed, group and run of seasons in its map, its table and its address', async () => {
    await page.goto(site.url);
    for (const label of ['Weed', 'Herbicide site of action', 'Seasons']) {
      const before = await page.locator(HEADLINE).textContent();
      const list = page.getByLabel(label, { exact: true });
      const current = await list.inputValue();
      const other = (await options(label)).filter((value) => value !== current && value !== 'all').at(-1);
      if (other === undefined) continue;
      await choose(label, other);
      await eventually(() => page.locator(HEADLINE).textContent()).not.toBe(before);
    }
    expect([...address().keys()]).toEqual(expect.arrayContaining(['species', 'group', 'window', 'by']));
    // From there to a view that is known to show a number.
    for (const [label, value] of [
      ['Weed', shown.species],
      ['Herbicide site of action', String(shown.group)],
      ['Seasons', shown.window],
    ] as const) {
      if ((await page.getByLabel(label, { exact: true }).inputValue()) !== value) await choose(label, value);
    }
    await page.getByText(/^All \d+ (counties and areas|districts)$/).click();
    const rows = page.locator('#numbers tbody tr');
    expect(await rows.count()).toBe(await page.locator('svg.map [data-place]').count());
    const published = rows.filter({ hasText: /confirmed.*%/ }).first();
    const cells = await published.locator('td').allTextContents();
    const [tested, resistant] = [Number(cells[2]), Number(cells[3])];
    expect(cells[4]!.replace(/\D/g, '')).toBe(String(Math.round((100 * resistant) / tested)));
    const name = await published.locator('th').textContent();
    const title = page.locator('svg.map [data-place] title').filter({ hasText: `${name}, ${cells[0]}` });
    expect(await title.textContent()).toContain(`${resistant} of ${tested} `);
    const kept = await page.locator(HEADLINE).textContent();
    await page.reload();
    expect(await page.locator(HEADLINE).textContent()).toBe(kept);
    await page.goBack();
    await eventually(() => page.locator(HEADLINE).textContent()).not.toBe(kept);
  });

  it('shows a county that is counted together with its neighbours as one of them', async () => {
    await page.goto(`${site.url}/?species=KCHSC&group=9&window=2022-2024&by=county&place=20063`);
    await live();
    const area = page.locator('svg.map [data-place*="20063"]');
    expect(await area.count()).toBe(1);
    const members = (await area.getAttribute('data-place'))!.split('+');
    expect(members).toHaveLength(3);
    const card = await page.locator('.place-card').textContent();
    expect(card).toMatch(/^Gove County, KS.*counted together with its neighbours: .*Gove.* counties, KS/);
    const [, words] = (await area.locator('title').textContent())!.split('\n');
    expect(card).toContain(words!.match(/\d+ of \d+/)?.[0] ?? 'No public');
    await page.getByText(/^All \d+ counties and areas$/).click();
    expect(
      await page
        .locator('#numbers th[scope="row"]')
        .filter({ hasText: /^Gove County$/ })
        .count(),
    ).toBe(0);
  });

  it('shows no number of a withheld place, in the page or in anything that it loaded', async () => {
    const { species, group, window, county } = hidden;
    const view = new URLSearchParams({ species, group: String(group), window, by: 'county', place: county });
    await page.goto(`${site.url}/?species=${species}&group=${group}&window=${window}&by=district`);
    await page.goto(`${site.url}/?${view}`);
    await live();
    const title = await page.locator(`svg.map [data-place="${county}"] title`).textContent();
    const [fullName, words] = title!.split('\n');
    expect(words).toBe('No public information.');
    const area = page.locator(`svg.map [data-place="${county}"]`);
    expect(await area.evaluate((path) => path.getAttributeNames().sort())).toEqual([
      'class',
      'd',
      'data-place',
      'fill',
    ]);
    expect(await area.getAttribute('class')).toBe('look-hidden');

    const name = fullName!.replace(/, \w\w$/, '');
    await page.getByText(/^All \d+ counties and areas$/).click();
    const row = page
      .locator('#numbers tbody tr')
      .filter({ has: page.getByRole('rowheader', { name, exact: true }) });
    const state = fullName!.slice(-2);
    const cells = await row
      .filter({ has: page.getByRole('cell', { name: state, exact: true }) })
      .locator('td')
      .allTextContents();
    expect(cells).toEqual([state, 'no public information', 'withheld']);

    const card = page.locator('.place-card');
    const own = await card.locator(':scope > :not(.around)').allTextContents();
    expect(own[0]).toBe(fullName);
    expect(own.join(' ').replaceAll(window.replace('-', '–'), '')).not.toMatch(/\d/);
    expect(await card.locator('.around').textContent()).toMatch(/\d/);

    const loaded = await watched.bodies();
    expect(loaded.map(({ url }) => new URL(url).pathname)).toEqual(expect.arrayContaining(['/']));
    let seen = 0;
    for (const { url, text } of loaded) {
      for (const told of text.split(fullName!).slice(1)) {
        seen++;
        expect(told.slice(0, 40), url).not.toMatch(/\d+ of \d+|\d\s?%/);
      }
      // A line of the table after this county's name, in the page and in what the framework hands over.
      for (const [, line] of text.matchAll(new RegExp(`>${name}</th><td>${state}</td>(.*?)</tr>`, 'g'))) {
        seen++;
        expect(line!.replace(/<[^>]*>/g, ''), url).not.toMatch(/\d/);
      }
      for (const [, shape] of text.matchAll(
        new RegExp(`data-place=\\\\?"${county}\\\\?"(.*?)</path>`, 'g'),
      )) {
        seen++;
        expect(shape, url).not.toMatch(/\d/);
      }
    }
    expect(seen).toBeGreaterThan(3);
    expect(watched.foreign).toEqual([]);
    expect(watched.complaints).toEqual([]);
  });

  it('lets the live map take over, follow the pointer, and open a place', async () => {
    await page.goto(site.url);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    const canvas = page.locator('.map-live canvas');
    const box = (await page.locator('.map-stage').boundingBox())!;
    const drawn = (await canvas.boundingBox())!;
    expect(Math.abs(drawn.width - box.width) + Math.abs(drawn.height - box.height)).toBeLessThan(1);
    await page.mouse.move(box.x + box.width * 0.7, box.y + box.height * 0.7);
    const reading = page.locator('.map-reading strong');
    await eventually(() => reading.count()).toBe(1);
    const name = await reading.textContent();
    await page.mouse.click(box.x + box.width * 0.7, box.y + box.height * 0.7);
    await eventually(() => address().get('place')).toBeTruthy();
    await eventually(() => page.locator('#place-heading').textContent()).toBe(name);
    await page.getByRole('button', { name: 'Zoom in' }).click();
    await page.getByRole('button', { name: 'Show the whole region' }).click();
    expect(watched.foreign).toEqual([]);
    expect(watched.complaints).toEqual([]);
  });

  it('outlines the place that is tapped, tells it in the card, and closes it by Escape', async () => {
    await page.goto(`${site.url}/?by=county`);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    const { key, x, y } = await lightPlace();
    await page.mouse.click(x, y);
    await eventually(() => address().get('place')).toBe(key.split('+')[0]);
    await page.mouse.move(2, 2);
    await eventually(() => inkedOutline(page, key)).toBeGreaterThan(0.9);
    const name = await page.locator(`svg.map [data-place="${key}"] title`).textContent();
    await eventually(() => page.locator('.place-card').textContent()).toContain(
      name!.split('\n')[0]!.replace(/, \w\w$/, ''),
    );

    await page.locator('.map-live canvas').focus();
    for (let i = 0; i < 2; i++) await page.keyboard.press('Escape');
    await eventually(() => address().get('place')).toBeNull();
    await eventually(() => inkedOutline(page, key)).toBeLessThan(0.5);
    expect(watched.complaints).toEqual([]);
  });

  it('outlines the place that is opened by keyboard', async () => {
    await page.goto(`${site.url}/?by=state`);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    const canvas = page.locator('.map-live canvas');
    await canvas.focus();
    await page.keyboard.press('ArrowRight');
    const reading = page.locator('.map-reading strong');
    await eventually(() => reading.count()).toBe(1);
    const name = await reading.textContent();
    await page.keyboard.press('Enter');
    await eventually(() => page.locator('#place-heading').textContent()).toBe(name);
    await page.keyboard.press('Escape');
    await eventually(() => reading.count()).toBe(0);
    expect(address().get('place')).not.toBeNull();
    await page.keyboard.press('Escape');
    await eventually(() => address().get('place')).toBeNull();
    expect(watched.complaints).toEqual([]);
  });

  it('lets the live map take over without a jump: block by block it looks like the picture', async () => {
    page = await open({ viewport: { width: 1280, height: 1400 } });
    await page.route('**/outlines/*', async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 1_500));
      await route.continue();
    });
    await page.goto(site.url);
    await page.locator('.map-picture').waitFor();
    const clip = (await page.locator('.map-stage').boundingBox())!;
    // The buttons that only a live map has stand in the upper left corner, over no county of a basin of this shape.
    const shown = { ...clip, x: clip.x + 0.3 * clip.width, width: 0.7 * clip.width };
    const before = await page.screenshot({ clip: shown });
    await live();
    await page.waitForTimeout(300);
    const after = await page.screenshot({ clip: shown });
    const [average, worst] = await blockDifference(page, before, after);
    expect(average).toBeLessThan(3);
    expect(worst).toBeLessThan(60);
  });

  it('keeps inks and chosen links apart where the reader’s system sets the colours', async () => {
    await page.goto(`${site.url}/?by=district`);
    const inks = () =>
      page.evaluate(() =>
        [...document.querySelectorAll('svg.map [data-place]')].map((area) => getComputedStyle(area).fill),
      );
    const own = await inks();
    await page.emulateMedia({ forcedColors: 'active' });
    expect(await inks()).toEqual(own);
    const grounds = await page
      .locator('.layer-switch a')
      .evaluateAll((links) =>
        links.map((link) => [link.ariaCurrent !== null, getComputedStyle(link).backgroundColor] as const),
      );
    const chosen = grounds.filter(([isChosen]) => isChosen).map(([, ground]) => ground);
    expect(chosen).toHaveLength(1);
    for (const [isChosen, ground] of grounds) if (!isChosen) expect(ground).not.toBe(chosen[0]);
  });

  it('is used by keyboard alone, the map included', async () => {
    await page.goto(site.url);
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').textContent()).toBe('Skip to the findings');
    const tabTo = async (selector: string) => {
      for (let i = 0; i < 60; i++) {
        if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`No way by keyboard to ${selector}`);
    };
    await tabTo('select[name="window"]');
    await page.keyboard.press('End');
    await eventually(() => address().get('window')).toBe('all');
    await tabTo('.grain-switch a:not([aria-current])');
    await page.keyboard.press('Enter');
    await eventually(() => address().get('by')).toBe('district');
    await live();
    await tabTo('.map-live canvas');
    await page.keyboard.press('ArrowRight');
    const reading = page.locator('.map-reading strong');
    await eventually(() => reading.count()).toBe(1);
    const name = await reading.textContent();
    await page.keyboard.press('Enter');
    await eventually(() => page.locator('#place-heading').textContent()).toBe(name);
    await tabTo('.numbers summary');
    await page.keyboard.press('Enter');
    expect(await page.locator('#numbers').isVisible()).toBe(true);
  });

  it('gives every job of the map to the keyboard: layer, season, search, zoom and pan, opening a place', async () => {
    await page.goto(site.url);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    const tabTo = async (selector: string) => {
      for (let i = 0; i < 120; i++) {
        if (await page.evaluate((wanted) => document.activeElement?.matches(wanted), selector)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`No way by keyboard to ${selector}`);
    };
    await tabTo('.layer-switch a[href*="layer=found"]');
    await page.keyboard.press('Enter');
    await eventually(() => address().get('layer')).toBe('found');
    await eventually(() => page.locator('#map-heading').textContent()).toContain('First found');
    await tabTo('.season-slider input');
    await page.keyboard.press('Home');
    await eventually(() => address().get('window')).toBe('2019-2021');
    await eventually(() => page.locator('#map-heading').textContent()).toContain('up to 2021');
    // Whatever has the focus keeps it while the page follows.
    expect(await page.evaluate(() => document.activeElement?.getAttribute('type'))).toBe('range');
    const name = page.locator('.map-live .state-name').first();
    const before = (await name.boundingBox())!;
    await page.keyboard.press('Shift+Tab');
    await tabTo('.map-controls button');
    await page.keyboard.press('Enter');
    await eventually(async () => Math.round((await name.boundingBox())!.x - before.x)).not.toBe(0);
    const buttons = await page.locator('.map-controls button, .season-slider button').all();
    expect(buttons).toHaveLength(8);
    for (const button of buttons) {
      const { width, height } = (await button.boundingBox())!;
      expect(Math.min(width, height)).toBeGreaterThanOrEqual(24);
    }
    await tabTo('.place-search input[name="find"]');
    await page.keyboard.type('red wil', { delay: 20 });
    const fitting = page.locator('.place-search [role="option"]');
    await eventually(() => fitting.allTextContents()).toEqual(['Red Willow County, NE']);
    await page.keyboard.press('ArrowDown');
    expect(await fitting.getAttribute('aria-selected')).toBe('true');
    await page.keyboard.press('Enter');
    await eventually(() => address().get('place')).toBe('31145');
    await eventually(() => page.locator('#place-heading').textContent()).toBe('Red Willow County, NE');
    expect(address().get('layer')).toBe('found');
    expect(watched.complaints).toEqual([]);
  });

  it('plays the seasons where the grain has them, and stands still for who wants no motion', async () => {
    await page.goto(`${site.url}/?by=district&window=2019`);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    await page.getByRole('button', { name: 'Play the seasons' }).click();
    const shown = page.locator('.season-slider output');
    await eventually(() => shown.textContent()).toBe('2021');
    await page.getByRole('button', { name: 'Stop' }).click();
    const stopped = await shown.textContent();
    await eventually(() => address().get('window')).toBe(stopped);
    await eventually(() => page.locator('#map-heading').textContent()).toContain(`in ${stopped}`);
    page = await open({ reducedMotion: 'reduce' });
    await page.goto(`${site.url}/?by=state&window=2025`);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    expect(await page.locator('.season-slider button').isVisible()).toBe(false);
    expect(await page.locator('.season-slider output').textContent()).toBe('2025*, still being screened');
  });

  it.each([
    ['light', 1280, 'share'],
    ['dark', 1280, 'clusters'],
    ['light', 360, 'spread'],
    ['dark', 360, 'effort'],
  ] as const)(
    'has nothing that axe finds, %s at %i pixels with the layer %s, and fits the screen',
    async (colorScheme, width, layer) => {
      page = await open({ colorScheme, viewport: { width, height: 900 } });
      const { species, group, window, county } = hidden;
      await page.goto(
        `${site.url}/?species=${species}&group=${group}&window=${window}&place=${county}&layer=${layer}&by=nonsense`,
      );
      await page.locator('.map-stage').scrollIntoViewIfNeeded();
      await live();
      for (const summary of await page.locator('summary').all()) await summary.click();
      await layOutAll(page);
      const { violations } = await new AxeBuilder({ page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    },
  );

  it('says what each file is for, and leaves the sums to their own file where there is no room', async () => {
    for (const [width, shown] of [
      [1280, true],
      [360, false],
    ] as const) {
      page = await open({ viewport: { width, height: 900 } });
      await page.goto(site.url);
      const table = page.locator('.downloads table');
      const rows = await table.locator('tbody tr').all();
      expect(rows.length).toBeGreaterThan(1);
      for (const row of rows) {
        const name = (await row.locator('a').textContent())!;
        expect(await row.locator('th p').textContent()).toBe(purposeOf(name));
        expect(await row.locator('code').isVisible(), name).toBe(shown);
      }
      expect(await page.locator('.downloads').textContent()).toContain('SHA256SUMS lists');
      expect((await table.boundingBox())!.width).toBeLessThanOrEqual(width);
    }
  });
});

describe('without', () => {
  it('script, the page shows map, charts and table, and answers its form', async () => {
    page = await open({ javaScriptEnabled: false });
    await page.goto(site.url);
    expect(await page.locator('svg.map [data-place]').count()).toBeGreaterThan(10);
    expect(await page.locator('svg.trend').count()).toBeGreaterThan(0);
    await page.getByLabel('Seasons', { exact: true }).selectOption('all');
    await page.getByRole('button', { name: 'Show', exact: true }).click();
    expect(address().get('window')).toBe('all');
    expect(await page.locator('#numbers thead th').allTextContents()).toEqual(['Place', 'State', 'Status']);
    await page.locator('.place-search input[name="find"]').fill('Gove');
    await page.getByRole('button', { name: 'Find', exact: true }).click();
    await eventually(() => page.locator('#place-heading').textContent()).toBe('Gove County, KS');
    expect(await page.locator('.season-slider').isVisible()).toBe(false);
    await page.getByRole('link', { name: 'district', exact: true }).click();
    expect(address().get('by')).toBe('district');
  });

  it('graphics, the picture stays and still reads out the place that is pointed at', async () => {
    const plain = await openBrowser({ graphics: false });
    onTestFinished(() => plain.close());
    page = await open({}, plain);
    await page.goto(site.url);
    const area = page.locator('svg.map [data-place]').nth(150);
    await area.scrollIntoViewIfNeeded();
    await page.waitForTimeout(3_000);
    await area.hover({ force: true });
    await eventually(() => page.locator('.map-reading strong').count()).toBe(1);
    expect(await page.locator('[data-map="picture"]').count()).toBe(1);
  });
});

describe('a page whose scripts are still to come', () => {
  it('answers a choice as it would without them', async () => {
    const held: (() => void)[] = [];
    await page.route(/_next.static.*\.js$/, async (route) => {
      await new Promise<void>((go) => held.push(go));
      await route.continue().catch(() => {});
    });
    await page.goto(site.url);
    expect(await page.locator('form[data-answers]').count()).toBe(0);
    const [weed] = (await options('Weed')).filter((code) => code !== 'KCHSC');
    await page.getByLabel('Weed', { exact: true }).selectOption(weed!);
    await page.waitForURL((url) => url.searchParams.get('species') === weed);
    expect(await page.locator('form[data-answers]').count()).toBe(0);
    await page.unroute(/_next.static.*\.js$/);
    for (const go of held) go();
    await page.locator('form[data-answers]').waitFor();
  });
});

describe('the weight of the page', () => {
  it('is at most 170 kB of script before anything is touched and 520 kB with the live map', async () => {
    const session = await page.context().newCDPSession(page);
    await session.send('Network.enable');
    let bytes = 0;
    const scripts = new Set<string>();
    session.on(
      'Network.responseReceived',
      ({ requestId, type }) => type === 'Script' && scripts.add(requestId),
    );
    session.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
      if (scripts.has(requestId)) bytes += encodedDataLength;
    });
    const workers: string[] = [];
    page.on('worker', (worker) => workers.push(worker.url()));
    await page.goto(site.url);
    await page.locator('form[data-answers]').waitFor();
    expect(bytes).toBeGreaterThan(50_000);
    expect(bytes).toBeLessThanOrEqual(170_000);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await live();
    const sizes = await Promise.all(
      [...new Set(workers)].map(async (url) => {
        const response = await fetch(url, { headers: { 'Accept-Encoding': 'br' } });
        return Number(response.headers.get('content-length'));
      }),
    );
    const worker = sizes.reduce((sum, size) => sum + size, 0);
    expect(worker).toBeGreaterThan(50_000);
    expect(bytes + worker).toBeLessThanOrEqual(520_000);
  });
});
