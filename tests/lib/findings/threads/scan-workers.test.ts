import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type ScanWorkers, startScanWorkers } from '@/lib/findings/threads/scan-workers';
import { Random } from '@/lib/stats/random';
import { planCircles, scanCircles } from '@/lib/stats/scan/scan-circles';
import { planCylinders, scanCylinders } from '@/lib/stats/scan/scan-cylinders';
import { planSeasons, scanSeasons } from '@/lib/stats/scan/scan-seasons';

// Invented: 30 places, 2 seasons.
const random = new Random(5);
const coordinates = () => Array.from({ length: 30 }, () => 10 * random.uniform());
const points = { x: coordinates(), y: coordinates(), metric: 'plane' } as const;
const tested = Array.from({ length: 60 }, () => 1 + random.below(9));
const resistant = tested.map((n) => random.below(n + 1));
const first = { tested: tested.slice(0, 30), resistant: resistant.slice(0, 30) };
const run = { seed: 3, replicates: 499 };

describe.each([1, 2, 3])('%i threads', (threads) => {
  let workers: ScanWorkers;
  beforeAll(() => {
    workers = startScanWorkers(threads);
  });
  afterAll(() => workers.close());

  it('give what one thread gives, also of several scans at once', async () => {
    const seasons = { tested, resistant, seasons: 2 };
    const cases = { cases: resistant, seasons: 2 };
    const found = await Promise.all([
      workers.scan(planCircles(points, first, 'bernoulli'), run),
      workers.scan(planCylinders(points, seasons, 'poisson', { direction: 'both' }), run),
      workers.scan(planSeasons(points, cases), { ...run, seed: 4 }),
    ]);
    expect(found).toEqual([
      scanCircles(points, first, 'bernoulli', run),
      scanCylinders(points, seasons, 'poisson', { direction: 'both', ...run }),
      scanSeasons(points, cases, { ...run, seed: 4 }),
    ]);
  });

  it('pass on a typed error and go on working', async () => {
    const tooMany = planCircles(
      { ...points, x: [0, 1], y: [0, 1] },
      { tested: [2e6, 2e6], resistant: [1, 2] },
      'bernoulli',
    );
    await expect(workers.scan(tooMany, run)).rejects.toMatchObject({
      name: 'StatsError',
      code: 'bad argument',
      message: expect.stringContaining('4000000 individuals'),
    });
    const plan = planCircles(points, first, 'bernoulli');
    await expect(workers.scan(plan, { ...run, seed: -1 })).rejects.toMatchObject({ code: 'bad argument' });
    await expect(workers.scan(plan, { ...run, replicates: 0 })).rejects.toMatchObject({
      code: 'bad argument',
    });
    expect(await workers.scan(plan, run)).toEqual(scanCircles(points, first, 'bernoulli', run));
  });
});

describe('threads that ended', () => {
  it('fail the scans that wait for them, and later ones', async () => {
    const workers = startScanWorkers(1);
    const plan = planCircles(points, first, 'bernoulli');
    const unfinished = expect(workers.scan(plan, { seed: 1, replicates: 100_000 })).rejects.toThrow('closed');
    await workers.close();
    await unfinished;
    await expect(workers.scan(plan, run)).rejects.toThrow('closed');
    await workers.close();
  });

  it('fail the scan whose plan broke them', async () => {
    const workers = startScanWorkers(1);
    const broken = { ...planCircles(points, first, 'bernoulli'), circles: undefined as never };
    await expect(workers.scan(broken, run)).rejects.toThrow(TypeError);
    await workers.close();
  });

  it('are none where none are asked for', () => {
    for (const threads of [0, 1.5, Number.NaN]) {
      expect(() => startScanWorkers(threads)).toThrow(expect.objectContaining({ code: 'bad argument' }));
    }
  });
});

it('a command finds the same, and ends', async () => {
  const script = `
    import { startScanWorkers } from './lib/findings/threads/scan-workers.ts';
    import { planCircles } from './lib/stats/scan/scan-circles.ts';
    const workers = startScanWorkers(2);
    const plan = planCircles(${JSON.stringify(points)}, ${JSON.stringify(first)}, 'bernoulli');
    const { limits } = await workers.scan(plan, ${JSON.stringify(run)});
    console.log(JSON.stringify(limits.map(({ windows }) => windows.map(({ p }) => p))));
    await workers.close();`;
  const { stdout } = await promisify(execFile)(
    process.execPath,
    ['--import', 'tsx', '--input-type=module', '--eval', script],
    { cwd: join(import.meta.dirname, '../../../..') },
  );
  const { limits } = scanCircles(points, first, 'bernoulli', run);
  expect(JSON.parse(stdout)).toEqual(limits.map(({ windows }) => windows.map(({ p }) => p)));
});
