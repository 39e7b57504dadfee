import { expect, it } from 'vitest';
import { deriveSeed, Random } from '@/lib/stats/random';
import { allocation } from '@/lib/stats/scan/allocate';
import { concludeScan } from '@/lib/stats/scan/conclude';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles } from '@/lib/stats/scan/scan-circles';
import type { ScanDirection } from '@/lib/stats/scan/types';
import { plainWindows } from './brute-force';

// Invented: 75 places anywhere, so that circles are longer than one stretch of the sweep. With counts in the hundreds
// two data sets share a word; in the thousands (over 32,767 resistant in all) each has its own.
const PLACES = 75;
const points = randomPoints(new Random(7));

it.each([
  { each: 400, direction: 'high', model: 'bernoulli' },
  { each: 400, direction: 'low', model: 'bernoulli' },
  { each: 400, direction: 'both', model: 'poisson' },
  { each: 4_000, direction: 'high', model: 'bernoulli' },
  { each: 4_000, direction: 'low', model: 'poisson' },
  { each: 4_000, direction: 'both', model: 'bernoulli' },
] as const)(
  '$each tested a place, $direction, $model: 35 replicates have the maxima of trying all windows',
  (test) => {
    const { tested, resistant } = randomCounts(new Random(8), test.each);
    const options = { shares: [0.5, 0.1], direction: test.direction as ScanDirection };
    const plan = planCircles(points, { tested, resistant }, test.model, options);
    expect(plan.totalResistant > 32_767).toBe(test.each > 1_000);
    const maxima = nullMaxima(plan, { seed: 5, from: 0, to: 35 });
    const allocate = allocation(plan);
    const counts = new Int32Array(PLACES);
    const scan = {
      ...{
        points,
        tested,
        seasons: 1,
        intervals: [[0, 0]] as const,
        model: test.model,
        direction: options.direction,
      },
      ...{ smallestPlaces: 1, smallestTested: 0, largestRadius: Number.POSITIVE_INFINITY },
    };
    for (let replicate = 0; replicate < 35; replicate += 7) {
      allocate(new Random(deriveSeed(5, `scan replicate ${replicate}`)), counts);
      options.shares.forEach((share, at) => {
        const windows = plainWindows({ ...scan, share, resistant: [...counts] });
        expect(maxima[at]![replicate]).toBeCloseTo(Math.max(...windows.map(({ ratio }) => ratio)), 6);
      });
    }
    const best = concludeScan(plan, maxima).limits[0]!.windows[0]!;
    const windows = plainWindows({ ...scan, share: 0.5, resistant });
    expect(best.logLikelihoodRatio).toBeCloseTo(Math.max(...windows.map(({ ratio }) => ratio)), 6);
  },
);

function randomPoints(random: Random) {
  const some = () => Array.from({ length: PLACES }, () => 10 * random.uniform());
  return { x: some(), y: some(), metric: 'great circle' as const };
}

function randomCounts(random: Random, each: number) {
  const tested = Array.from({ length: PLACES }, () => 1 + random.below(2 * each));
  return { tested, resistant: tested.map((n) => Math.floor(n * (0.1 + 0.4 * random.uniform()))) };
}
