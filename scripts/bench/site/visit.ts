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

/** Visits the front page with nothing kept, lets the live map take over, and uses the map. */
export async function visit(browser: Browser, url: string): Promise<Visit> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    const script = await countScript(session, page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });
    // The runner of this script gives functions their names by a helper that the page has not.
    await page.addInitScript({ content: 'globalThis.__name = (named) => named;' });
    await page.addInitScript(watch);
    await page.goto(url, { waitUntil: 'load' });
    const scriptBefore = script.bytes();
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await page.locator('[data-map="live"]').waitFor({ timeout: 60_000 });
    const scriptWithMap = script.bytes() + (await script.workerBytes());
    await use(page);
    const seen = await page.evaluate(() => {
      const [paint] = performance.getEntriesByName('first-contentful-paint');
      const at = (name: string) => performance.getEntriesByName(name)[0]?.startTime ?? Number.NaN;
      return {
        ...(globalThis as unknown as { seen: { largest: number; shift: number; slowest: number } }).seen,
        firstPaint: paint?.startTime ?? Number.NaN,
        liveMap: at('live-map-there') - at('live-map-wanted'),
      };
    });
    return {
      firstPaint: seen.firstPaint,
      largestPaint: seen.largest,
      liveMap: seen.liveMap,
      slowestAnswer: seen.slowest,
      layoutShift: seen.shift,
      scriptBefore: scriptBefore / 1000,
      scriptWithMap: scriptWithMap / 1000,
    };
  } finally {
    await context.close();
  }
}

/** Taps a place, opens it, steps a season, zooms, changes the layer. */
async function use(page: Page): Promise<void> {
  const box = (await page.locator('.map-stage').boundingBox())!;
  const at = [box.x + 0.7 * box.width, box.y + 0.6 * box.height] as const;
  await page.mouse.move(...at);
  await page.mouse.click(...at);
  await page.waitForURL(/place=/);
  await page.waitForTimeout(1_000);
  await page.getByRole('slider').press('ArrowLeft');
  await page.waitForTimeout(1_500);
  await page.locator('.map-controls button').first().click();
  await page.waitForTimeout(500);
  await page.locator('.layer-switch a').nth(1).click();
  await page.waitForURL(/layer=found/);
  await page.waitForTimeout(1_000);
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
