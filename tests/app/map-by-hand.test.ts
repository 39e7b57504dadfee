import type { Browser, BrowserContext, CDPSession, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, onTestFinished } from 'vitest';
import { openBrowser } from './support/browser';
import { openSite, type Site } from './support/site';
import { type Watch, watch } from './support/watch';

let site: Site;
let browser: Browser;
beforeAll(async () => {
  [site, browser] = await Promise.all([openSite(), openBrowser()]);
}, 300_000);
afterAll(async () => {
  await browser?.close();
  await site?.close();
});

/** What a busy machine shows late is right too. */
const eventually = (read: () => unknown) => expect.poll(read, { timeout: 20_000 });

interface Opened {
  page: Page;
  watched: Watch;
  context: BrowserContext;
  /** A point of the map, in the window. */
  at: (x: number, y: number) => Promise<{ x: number; y: number }>;
  /** Where the name of the first state stands: it moves with the map. */
  name: () => Promise<{ x: number; y: number }>;
}

/** The live map, in a browser context of its own that is closed with its test. */
async function openMap(options: Parameters<Browser['newContext']>[0]): Promise<Opened> {
  const context = await browser.newContext(options);
  onTestFinished(() => context.close());
  const watched = watch(context, new URL(site.url).origin);
  const page = await context.newPage();
  await page.goto(`${site.url}/?by=county`);
  await page.locator('.map-stage').scrollIntoViewIfNeeded();
  await page.locator('[data-map="live"]').waitFor({ timeout: 60_000 });
  const at = async (x: number, y: number) => {
    const box = (await page.locator('.map-stage').boundingBox())!;
    return { x: box.x + x * box.width, y: box.y + y * box.height };
  };
  const name = () =>
    page
      .locator('.map-live .state-name')
      .first()
      .evaluate((element) => {
        const stage = element.closest('.map-stage')!.getBoundingClientRect();
        const { x, y } = element.getBoundingClientRect();
        return { x: Math.round(x - stage.x), y: Math.round(y - stage.y) };
      });
  return { page, watched, context, at, name };
}

const DESK = { viewport: { width: 1280, height: 900 } };
const PHONE = { viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true };

describe('the live map by mouse', () => {
  it('is dragged as far as the pointer goes, and a click in between opens what it lies on', async () => {
    const { page, watched, at, name } = await openMap(DESK);
    const [before, from] = [await name(), await at(0.5, 0.5)];
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    for (const step of [2, 20, 40, 60]) await page.mouse.move(from.x + step, from.y + step / 2);
    await page.waitForTimeout(300);
    await page.mouse.up();
    await eventually(async () => (await name()).x - before.x).toBeGreaterThan(54);
    const after = await name();
    expect(after.x - before.x).toBeLessThan(66);
    expect(Math.abs(after.y - before.y - 30)).toBeLessThan(6);

    await page.mouse.move(from.x, from.y);
    await page.mouse.click(from.x, from.y);
    await eventually(() => new URL(page.url()).searchParams.get('place')).toBeTruthy();
    // A second drag begins like the first.
    const then = await name();
    const again = await at(0.5, 0.5);
    await page.mouse.move(again.x, again.y);
    await page.mouse.down();
    for (const step of [10, 40]) await page.mouse.move(again.x - step, again.y);
    await page.waitForTimeout(300);
    await page.mouse.up();
    await eventually(async () => then.x - (await name()).x).toBeGreaterThan(34);
    expect(watched.complaints).toEqual([]);
  });

  it('is zoomed in by a double click', async () => {
    const { page, at, name } = await openMap(DESK);
    const before = await name();
    const { x, y } = await at(0.5, 0.5);
    await page.mouse.dblclick(x, y);
    await eventually(async () => Math.abs((await name()).x - before.x)).toBeGreaterThan(20);
  });
});

describe('the live map by finger', () => {
  it('stays under one finger and is moved by two', async () => {
    const { page, watched, context, at, name } = await openMap(PHONE);
    const hand = await context.newCDPSession(page);
    const [before, from] = [await name(), await at(0.5, 0.5)];
    await swipe(hand, [from], 6, { x: 10, y: 0 });
    await page.waitForTimeout(500);
    expect(await name()).toEqual(before);

    const [one, other] = [await at(0.4, 0.5), await at(0.6, 0.5)];
    await swipe(hand, [one, other], 6, { x: 10, y: 0 });
    await eventually(async () => (await name()).x - before.x).toBeGreaterThan(40);
    expect(watched.complaints).toEqual([]);
  });

  it('tells the place that is tapped, and opens it by the link in what it tells', async () => {
    const { page, watched, at } = await openMap(PHONE);
    const { x, y } = await at(0.5, 0.5);
    await page.touchscreen.tap(x, y);
    const name = page.locator('.map-reading strong');
    await eventually(() => name.count()).toBe(1);
    const told = await name.textContent();
    await eventually(() => page.locator('.map-outlines .line-pointed').getAttribute('d')).toMatch(/^M/);
    await page.locator('.map-reading a').tap();
    await eventually(() => page.locator('#place-heading').textContent()).toBe(told);
    expect(watched.complaints).toEqual([]);
  });

  it('says that two fingers move it while one tries to', async () => {
    const { page, context, at } = await openMap(PHONE);
    const hand = await context.newCDPSession(page);
    const from = await at(0.5, 0.5);
    await page.evaluate(() => {
      const screen = document.querySelector('.maplibregl-cooperative-gesture-screen')!;
      new MutationObserver(() => {
        if (screen.classList.contains('maplibregl-show')) document.body.dataset.told = 'yes';
      }).observe(screen, { attributes: true });
    });
    await swipe(hand, [from], 1, { x: 1, y: 0 });
    expect(await page.evaluate(() => document.body.dataset.told)).toBeUndefined();
    await swipe(hand, [from], 6, { x: 10, y: 0 });
    await eventually(() => page.evaluate(() => document.body.dataset.told)).toBe('yes');
  });
});

/** Fingers that are put down, go together, and are lifted. */
async function swipe(
  hand: CDPSession,
  fingers: readonly { x: number; y: number }[],
  steps: number,
  by: { x: number; y: number },
): Promise<void> {
  const points = (step: number) =>
    fingers.map(({ x, y }, id) => ({ x: x + step * by.x, y: y + step * by.y, id }));
  await hand.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(0) });
  for (let step = 1; step <= steps; step++)
    await hand.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(step) });
  await hand.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
}
