import type { Browser, CDPSession, Page } from 'playwright-core';

interface TraceEvent {
  name: string;
  ph: string;
  ts: number;
  dur?: number;
  /** Time of the processor, which other programs do not lengthen. */
  tdur?: number;
  args: { data?: { type?: string } };
}

/**
 * Steps the seasons of a live map, and measures the script of each step: the key's event, the longest timer after it,
 * in which the counties get their inks, and the longest frame, in which the map is drawn anew, of the second after it. In
 * time of the processor.
 *
 * @returns how many counties the map has, and the script of each step in ms
 */
export async function measureRecolouring(
  browser: Browser,
  url: string,
  steps: number,
): Promise<{ counties: number; script: number[] }> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  try {
    const page = await context.newPage();
    await page.goto(url);
    await page.locator('.map-stage').scrollIntoViewIfNeeded();
    await page.locator('[data-map="live"]').waitFor({ timeout: 120_000 });
    await page.waitForTimeout(2_000);
    const counties = await page.locator('svg.map [data-place]').count();
    const session = await context.newCDPSession(page);
    const script: number[] = [];
    for (let i = 0; i <= steps; i++) {
      const taken = await step(session, page, i % 2 === 0 ? 'ArrowLeft' : 'ArrowRight');
      // The first step warms up.
      if (i > 0) script.push(taken);
    }
    return { counties, script };
  } finally {
    await context.close();
  }
}

async function step(session: CDPSession, page: Page, key: string): Promise<number> {
  const events: TraceEvent[] = [];
  const collect = ({ value }: { value: unknown[] }) => events.push(...(value as TraceEvent[]));
  session.on('Tracing.dataCollected', collect);
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['devtools.timeline'] },
  });
  await page.getByRole('slider').press(key);
  await page.waitForTimeout(1_000);
  const complete = new Promise((resolve) => session.once('Tracing.tracingComplete', resolve));
  await session.send('Tracing.end');
  await complete;
  session.off('Tracing.dataCollected', collect);
  // The page follows, which is no part of the frame.
  await page.waitForTimeout(4_000);
  return scriptOf(events);
}

/** The events of the key, and the longest timer and the longest frame after them. */
function scriptOf(events: readonly TraceEvent[]): number {
  const input = events.filter(
    ({ name, args }) =>
      name === 'EventDispatch' && ['keydown', 'input', 'change'].includes(args.data?.type ?? ''),
  );
  const after = Math.max(...input.map(({ ts, dur = 0 }) => ts + dur));
  const later = (kind: string) => events.filter(({ name, ts }) => name === kind && ts >= after);
  const longest = (list: readonly TraceEvent[]) => Math.max(0, ...list.map(({ tdur = 0 }) => tdur));
  // The input event is dispatched inside the keydown's: the longest holds the others.
  return (longest(input) + longest(later('TimerFire')) + longest(later('FireAnimationFrame'))) / 1000;
}
