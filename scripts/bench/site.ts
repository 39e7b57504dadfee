import type { Browser } from 'playwright-core';
import { closeClient, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { saveRelease } from '@/db/repositories/releases';
import type { Benchmark } from '../bench';
import { startServer } from '../serve';
import { type Steps, startSteps } from '../support/steps';
import { withDemoDatabase } from './demo-database';
import { openBenchBrowser } from './site/browser';
import { inventedNationalRelease } from './site/national-release';
import { measureRecolouring } from './site/recolouring';
import { DEVICES, type Device, type Visit, visit } from './site/visit';
import { withFolder } from './site/with-folder';

/** One visit to warm up, and then those whose median counts. */
const VISITS = 9;

/** Figures of what a reader waits for; they stand in the lines that are printed while it runs. */
export const site: Benchmark = {
  about:
    'What a reader of the demonstration’s map waits for (Chromium, CPU slowed 4 times, nothing kept from earlier visits), and recolouring at national size',
  async run() {
    const steps = startSteps();
    await withBrowser(false, (browser) =>
      withSite(steps, async (url) => {
        for (const device of Object.keys(DEVICES) as Device[]) await benchVisits(steps, browser, url, device);
      }),
    );
    await withBrowser(true, (browser) => benchNational(steps, browser));
    return [...steps.done];
  },
};

async function withBrowser(byGl: boolean, work: (browser: Browser) => Promise<void>): Promise<void> {
  const browser = await openBenchBrowser(byGl);
  try {
    await work(browser);
  } finally {
    await browser.close();
  }
}

/** A site over the demonstration; with FENCEROW_TEST_SITE_URL one that runs already. */
async function withSite(steps: Steps, work: (url: string) => Promise<void>): Promise<void> {
  const { FENCEROW_TEST_SITE_URL: running } = process.env;
  if (running) return work(running);
  await withDemoDatabase(steps, async (_, publicUrl) => {
    const server = await steps.run('site', () => startServer({ port: 0, publicUrl }));
    try {
      await work(server.url);
    } finally {
      await server.close();
    }
  });
}

async function benchVisits(steps: Steps, browser: Browser, url: string, device: Device): Promise<void> {
  const visits: Visit[] = [];
  await steps.run(`${device}: visits`, async () => {
    for (let i = 0; i <= VISITS; i++) visits.push(await visit(browser, url, device));
  });
  const counted = visits.slice(1);
  const figures: [string, keyof Visit, string][] = [
    ['first contentful paint', 'firstPaint', 'ms'],
    ['largest contentful paint', 'largestPaint', 'ms'],
    ['live map, since it starts to take over', 'liveMap', 'ms'],
    ['slowest answer to a tap or key (INP)', 'slowestAnswer', 'ms'],
    ['layout shift', 'layoutShift', ''],
    ['script before anything is touched', 'scriptBefore', 'kB'],
    ['script with the live map', 'scriptWithMap', 'kB'],
  ];
  for (const [name, key, unit] of figures) {
    await steps.run(`${device}: ${name}`, (detail) =>
      detail(
        spread(
          counted.map((one) => one[key]),
          unit,
        ),
      ),
    );
  }
}

/** An invented release of all counties of 48 states: it shows how long recolouring takes, and nothing else. */
async function benchNational(steps: Steps, browser: Browser): Promise<void> {
  await withFolder(async (folder) => {
    const env = { ...process.env, FENCEROW_DATA: folder, DATABASE_URL: undefined };
    const database = await steps.run('national: database', () => openDatabase({ env }));
    const staff = staffClient(database.staffUrl);
    try {
      await steps.run('national: invented release', () => saveRelease(staff, inventedNationalRelease()));
      const server = await startServer({ port: 0, publicUrl: database.publicUrl });
      try {
        await steps.run('national: recolouring of 3,106 counties', async (detail) => {
          const { counties, script } = await measureRecolouring(browser, server.url, VISITS);
          detail(`${counties} counties, script in the frame ${spread(script, 'ms')}, CPU not slowed`);
        });
      } finally {
        await server.close();
      }
    } finally {
      await closeClient(staff);
      await database.stop();
    }
  });
}

/** `median 812 ms (780–1,020)`. */
function spread(values: readonly number[], unit: string): string {
  const sorted = [...values].sort((a, b) => a - b);
  const median = sorted[Math.floor(sorted.length / 2)]!;
  const say = (value: number) =>
    unit === '' ? value.toFixed(3) : value.toFixed(unit === 'ms' && value < 100 ? 1 : 0);
  return `median ${say(median)} ${unit} (${say(sorted[0]!)}–${say(sorted.at(-1)!)})`;
}
