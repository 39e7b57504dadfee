import type { Browser, CDPSession, Page } from 'playwright-core';

/** What one visit took. Times in ms since the address was asked for, script in kB over the wire. */
export interface Visit {
  firstPaint: number;
  largestPaint: number;
  /** From when the live map starts to take over until it is there. */
  liveMap: number;
  /** Until the next paint after the slowest of the interactions. */
  slowestAnswer: number;
  layoutShift: number;
  scriptBefore: number;
  scriptWithMap: number;
}

const SLOWER = 4;
/**
 * After a page has loaded, until its last paint and script; and how long a hand rests on what it points at or reads what it
 * tapped, in ms.
 */
const [SETTLED, REST] = [1_500, 300];

/** What a reader holds: a wide window with a mouse, or a phone. */
export const DEVICES = {
  desk: { viewport: { width: 1280, height: 900 } },
  phone: { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true },
} as const;
export type Device = keyof typeof DEVICES;

/** Visits the front page with nothing kept, lets the live map take over, and uses the map. */
export async function visit(browser: Browser, url: string, device: Device): Promise<Visit> {
  const context = await browser.newContext(DEVICES[device]);
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    const script = await countScript(session, page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    // The runner of this script gives functions their names by a helper that the page has not.
    await page.addInitScript({ content: 'globalThis.__name = (named) => named;' });
    await page.addInitScript(watch);
    await page.goto(url, { waitUntil: 'load' });
    await page.waitForTimeout(SETTLED);
    // Before anything is scrolled into view, which would paint later what no visitor has asked for yet.
    const largestPaint = await page.evaluate(
      () => (globalThis as unknown as { seen: { largest: number } }).seen.largest,
    );
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await page.locator('[data-map="live"]').waitFor({ timeout: 60_000 });
    const scriptWithMap = script.bytes() + (await script.workerBytes());
    await use(page, device);
    const seen = await page.evaluate(() => {
      const [paint] = performance.getEntriesByName('first-contentful-paint');
      const at = (name: string) => performance.getEntriesByName(name)[0]?.startTime ?? Number.NaN;
      return {
        ...(globalThis as unknown as { seen: { shift: number; slowest: number } }).seen,
        firstPaint: paint?.startTime ?? Number.NaN,
        liveMap: at('live-map-there') - at('live-map-wanted'),
        scriptBefore: performance
          .getEntriesByType('resource')
          .filter((entry) => /\.js$/.test(entry.name) && entry.startTime < at('live-map-wanted'))
          .reduce((sum, entry) => sum + (entry as PerformanceResourceTiming).transferSize, 0),
      };
    });
    return {
      firstPaint: seen.firstPaint,
      largestPaint,
      liveMap: seen.liveMap,
      slowestAnswer: seen.slowest,
      layoutShift: seen.shift,
      scriptBefore: seen.scriptBefore / 1000,
      scriptWithMap: scriptWithMap / 1000,
    };
  } finally {
    await context.close();
  }
}

/** Taps or clicks a place, opens it, steps a season, zooms, changes the layer. */
async function use(page: Page, device: Device): Promise<void> {
  await openPlace(page, device);
  await page.waitForURL(/place=/);
  await page.waitForTimeout(1_000);
  await page.getByRole('slider').press('ArrowLeft');
  await page.waitForTimeout(1_500);
  await press(page, '.map-controls button', 0, device);
  await page.waitForTimeout(500);
  await press(page, '.layer-switch a', 1, device);
  await page.waitForURL(/layer=found/);
  await page.waitForTimeout(1_000);
}

/** By a mouse, which rests on the place first, or by a tap on it and one on what is then told of it. */
async function openPlace(page: Page, device: Device): Promise<void> {
  const box = (await page.locator('.map-stage').boundingBox())!;
  const at = [box.x + 0.7 * box.width, box.y + 0.6 * box.height] as const;
  if (device === 'phone') {
    await page.touchscreen.tap(...at);
    await page.waitForTimeout(REST);
    await press(page, '.map-reading a', 0, device);
    return;
  }
  await page.mouse.move(...at);
  await page.waitForTimeout(REST);
  await page.mouse.click(...at);
}

/** At its middle, not by the locator: that listens to the page's events to see whether it hit, which takes their time. */
async function press(page: Page, what: string, which: number, device: Device): Promise<void> {
  const found = page.locator(what).nth(which);
  await found.scrollIntoViewIfNeeded();
  const box = (await found.boundingBox())!;
  const at = [box.x + box.width / 2, box.y + box.height / 2] as const;
  if (device === 'phone') return page.touchscreen.tap(...at);
  await page.mouse.move(...at);
  await page.waitForTimeout(REST);
  await page.mouse.click(...at);
}

/** Runs in the page before all else: keeps the largest paint, what moved by itself, and the slowest interaction. */
function watch(): void {
  const seen = { largest: 0, shift: 0, slowest: 0 };
  Object.assign(globalThis, { seen });
  const each = (type: string, use: (entry: PerformanceEntry) => void, more: object = {}) =>
    new PerformanceObserver((list) => list.getEntries().forEach(use)).observe({
      type,
      buffered: true,
      ...more,
    });
  each('largest-contentful-paint', ({ startTime }) => {
    seen.largest = startTime;
  });
  each('layout-shift', (entry) => {
    const { value, hadRecentInput } = entry as PerformanceEntry & { value: number; hadRecentInput: boolean };
    if (!hadRecentInput) seen.shift += value;
  });
  each(
    'event',
    (entry) => {
      const { interactionId } = entry as PerformanceEntry & { interactionId: number };
      if (interactionId > 0) seen.slowest = Math.max(seen.slowest, entry.duration);
    },
    { durationThreshold: 16 },
  );
}

async function countScript(session: CDPSession, page: Page) {
  await session.send('Network.enable');
  const scripts = new Set<string>();
  const workers = new Set<string>();
  let bytes = 0;
  session.on('Network.responseReceived', ({ requestId, type }) => {
    if (type === 'Script') scripts.add(requestId);
  });
  session.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
    if (scripts.has(requestId)) bytes += encodedDataLength;
  });
  page.on('worker', (worker) => workers.add(worker.url()));
  return {
    bytes: () => bytes,
    workerBytes: async () => {
      const sizes = [...workers].map(async (url) => {
        const answer = await fetch(url, { headers: { 'Accept-Encoding': 'br' } });
        return Number(answer.headers.get('content-length'));
      });
      return (await Promise.all(sizes)).reduce((sum, size) => sum + size, 0);
    },
  };
}
