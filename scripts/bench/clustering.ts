import { startScanWorkers } from '@/lib/findings/threads/scan-workers';
import { concludeScan } from '@/lib/stats/scan/conclude';
import { gumbelTail } from '@/lib/stats/scan/gumbel';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles } from '@/lib/stats/scan/scan-circles';
import { planCylinders } from '@/lib/stats/scan/scan-cylinders';
import type { ScanPlan } from '@/lib/stats/scan/types';
import counties from '../../tests/reference/stats/scan-counties.json';
import type { Benchmark } from '../bench';
import { type Steps, startSteps } from '../support/steps';
import { benchCube } from './clustering-cube';
import { benchTests } from './clustering-tests';

const SEED = 1;
const REPLICATES = 999;
const THREADS = 2;
const SEASONS = 4;

/** Figures of the tests for clustering. */
export const clustering: Benchmark = {
  about:
    'Clustering on 3,106 counties with invented counts: global and local tests, the scan, and all maps of the demonstration',
  async run() {
    const steps = startSteps();
    await benchTests(steps);
    await benchScan(steps);
    await benchCube(steps);
    return [...steps.done];
  },
};

/**
 * The scan on 3,106 counties with invented counts (39,229 tested, circles of up to half of them, 4.3 million windows):
 * on one thread and on two, over seasons, and how well the Gumbel tail of 999 replicates foretells 4,000 others.
 */
async function benchScan(steps: Steps): Promise<void> {
  const points = { x: counties.lon, y: counties.lat, metric: 'great circle' } as const;
  const plan = await steps.run('scan: circles around 3,106 counties', (detail) => {
    const made = planCircles(points, counties, 'bernoulli');
    detail(`${made.circles.count.toLocaleString('en')} windows`);
    return made;
  });
  const maxima = await steps.run(`scan: ${REPLICATES} replicates, 1 thread`, (detail) =>
    timed(detail, REPLICATES, () => nullMaxima(plan, { seed: SEED, from: 0, to: REPLICATES })),
  );
  await steps.run('scan: windows of the data and their p', (detail) => {
    const [strongest] = concludeScan(plan, maxima).limits[0]!.windows;
    detail(`log likelihood ratio ${strongest!.logLikelihoodRatio.toFixed(6)}, p ${strongest!.p}`);
  });
  const workers = await steps.run(`scan: ${THREADS} threads started`, async () => {
    const started = startScanWorkers(THREADS);
    await started.scan(smallPlan(), { seed: SEED, replicates: REPLICATES });
    return started;
  });
  try {
    await steps.run(
      `scan: counts to result, ${REPLICATES} replicates, ${THREADS} threads`,
      async (detail) => {
        const before = process.cpuUsage();
        const again = planCircles(points, counties, 'bernoulli');
        await workers.scan(again, { seed: SEED, replicates: REPLICATES });
        const { user, system } = process.cpuUsage(before);
        detail(`${((user + system) / 1e6).toFixed(1)} s of all threads`);
      },
    );
    const cylinders = planCylinders(points, overSeasons(), 'bernoulli');
    const windows = (cylinders.circles.count * cylinders.slices.length).toLocaleString('en');
    await steps.run(
      `scan: ${SEASONS} seasons, ${windows} cylinders, ${REPLICATES} replicates, ${THREADS} threads`,
      () => workers.scan(cylinders, { seed: SEED, replicates: REPLICATES }),
    );
  } finally {
    await workers.close();
  }
  await steps.run('scan: Gumbel tail against 4,000 further replicates', (detail) => {
    detail(compareTail(plan, maxima[0]!));
  });
}

function timed<T>(detail: (text: string) => void, replicates: number, work: () => T): T {
  const start = performance.now();
  const result = work();
  detail(`${((performance.now() - start) / replicates).toFixed(2)} ms each`);
  return result;
}

function smallPlan(): ScanPlan {
  const points = { x: [0, 1, 2], y: [0, 0, 0], metric: 'plane' } as const;
  return planCircles(points, { tested: [4, 4, 4], resistant: [3, 1, 0] }, 'bernoulli');
}

/** Invented: the counts of each county dealt out evenly, so that no season stands out. */
function overSeasons() {
  const deal = (counts: readonly number[]) =>
    counts.flatMap((count) =>
      Array.from({ length: SEASONS }, (_, season) => Math.floor((count + season) / SEASONS)),
    );
  return { tested: deal(counties.tested), resistant: deal(counties.resistant), seasons: SEASONS };
}

function compareTail(plan: ScanPlan, fitted: Float64Array): string {
  const tail = gumbelTail(fitted)!;
  const others = nullMaxima(plan, { seed: SEED, from: REPLICATES, to: REPLICATES + 4_000 })[0]!.sort();
  return [0.1, 0.05, 0.01, 0.005, 0.001]
    .map((p) => `p ${p}: ${tail(others[Math.round((1 - p) * others.length)]!).toPrecision(2)}`)
    .join(', ');
}
