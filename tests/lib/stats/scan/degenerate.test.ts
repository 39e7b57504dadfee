import { describe, expect, it } from 'vitest';
import { StatsError } from '@/lib/stats/errors';
import { concludeScan } from '@/lib/stats/scan/conclude';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles, scanCircles } from '@/lib/stats/scan/scan-circles';
import { scanCylinders } from '@/lib/stats/scan/scan-cylinders';
import { scanSeasons } from '@/lib/stats/scan/scan-seasons';
import type { ScanModel, ScanOptions, ScanRun } from '@/lib/stats/scan/types';

// All maps here are invented.
const run = { seed: 1, replicates: 19 };
const line = (places: number) => ({
  x: Array.from({ length: places }, (_, i) => i),
  y: new Array<number>(places).fill(0),
  metric: 'plane' as const,
});
const scan = (
  tested: number[],
  resistant: number[],
  options: Partial<ScanOptions & ScanRun> = {},
  model: ScanModel = 'bernoulli',
) => scanCircles(line(tested.length), { tested, resistant }, model, { ...run, ...options });

function codeOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof StatsError) return error.code;
    throw error;
  }
  return 'no error';
}

describe('what cannot be scanned has a typed error', () => {
  it.each<[string, string, () => unknown]>([
    ['no place', 'nothing tested', () => scan([], [])],
    ['nothing tested anywhere', 'nothing tested', () => scan([0, 0], [0, 0])],
    ['one place', 'too few', () => scan([5], [2])],
    ['one place tested', 'too few', () => scan([0, 5, 0], [0, 2, 0])],
    ['none resistant', 'constant', () => scan([5, 5], [0, 0])],
    ['all resistant', 'constant', () => scan([5, 5], [5, 5])],
    ['no case', 'constant', () => scan([5, 5], [0, 0], {}, 'poisson')],
    ['NaN tested', 'bad count', () => scan([5, Number.NaN], [1, 1])],
    ['NaN resistant', 'bad count', () => scan([5, 5], [1, Number.NaN])],
    ['infinite tested', 'bad count', () => scan([5, Number.POSITIVE_INFINITY], [1, 1], {}, 'poisson')],
    ['negative', 'bad count', () => scan([5, 5], [1, -1])],
    ['negative population', 'bad count', () => scan([5, -5], [1, 0], {}, 'poisson')],
    ['part of a sample', 'bad count', () => scan([5, 5], [1, 1.5])],
    ['part of a tested', 'bad count', () => scan([5, 5.5], [1, 1])],
    ['more resistant than tested', 'bad count', () => scan([5, 5], [1, 6])],
    ['a case where none is expected', 'bad count', () => scan([5, 5, 0], [1, 1, 1], {}, 'poisson')],
    ['lengths that differ', 'bad argument', () => scan([5, 5], [1])],
    ['share of nothing', 'bad argument', () => scan([5, 5], [1, 2], { shares: [0] })],
    ['share of all', 'bad argument', () => scan([5, 5], [1, 2], { shares: [0.5, 1] })],
    ['no share', 'bad argument', () => scan([5, 5], [1, 2], { shares: [] })],
    ['NaN radius', 'bad argument', () => scan([5, 5], [1, 2], { largestRadius: Number.NaN })],
    ['no replicates', 'bad argument', () => scan([5, 5], [1, 2], { replicates: 0 })],
    ['no windows wanted', 'bad argument', () => scan([5, 5], [1, 2], { most: 0 })],
    ['a seed that is none', 'bad argument', () => scan([5, 5], [1, 2], { seed: 0.5 })],
    ['too many tested', 'bad argument', () => scan([2e6, 2e6], [1, 2])],
  ])('%s: %s', (_, code, work) => {
    expect(codeOf(work)).toBe(code);
  });

  it('a place without a point, and a latitude beyond the pole', () => {
    const counts = { tested: [5, 5], resistant: [1, 2] };
    const at = (x: number[], y: number[]) => () =>
      scanCircles({ x, y, metric: 'great circle' }, counts, 'bernoulli', run);
    expect(codeOf(at([1, Number.NaN], [1, 2]))).toBe('bad argument');
    expect(codeOf(at([1, 2], [1, 91]))).toBe('bad argument');
    expect(codeOf(at([1], [1]))).toBe('bad argument');
  });

  it('one season, and intervals longer than there are seasons', () => {
    const counts = { tested: [5, 5], resistant: [1, 2], seasons: 1 };
    expect(codeOf(() => scanCylinders(line(2), counts, 'bernoulli', run))).toBe('too few');
    expect(codeOf(() => scanSeasons(line(2), { cases: [1, 2], seasons: 1 }, run))).toBe('too few');
    const two = { tested: [5, 5, 5, 5], resistant: [1, 2, 1, 2], seasons: 2 };
    expect(codeOf(() => scanCylinders(line(2), two, 'bernoulli', { ...run, longestSeasons: 3 }))).toBe(
      'bad argument',
    );
    expect(codeOf(() => scanSeasons(line(2), { cases: [0, 0, 0, 0], seasons: 2 }, run))).toBe(
      'nothing tested',
    );
    expect(codeOf(() => scanSeasons(line(2), { cases: [1, Number.NaN, 0, 1], seasons: 2 }, run))).toBe(
      'bad count',
    );
  });

  it('replicates in no order, or of no seed', () => {
    const plan = planCircles(line(2), { tested: [5, 5], resistant: [1, 2] }, 'bernoulli');
    for (const range of [
      { seed: -1, from: 0, to: 1 },
      { seed: 1, from: 2, to: 1 },
      { seed: 1, from: -1, to: 1 },
      { seed: 1, from: 0, to: Number.NaN },
    ]) {
      expect(codeOf(() => nullMaxima(plan, range))).toBe('bad argument');
    }
    expect(nullMaxima(plan, { seed: 1, from: 4, to: 4 })).toEqual([new Float64Array(0), new Float64Array(0)]);
  });

  it('maxima of another plan', () => {
    const plan = planCircles(line(2), { tested: [5, 5], resistant: [1, 2] }, 'bernoulli');
    expect(codeOf(() => concludeScan(plan, [new Float64Array(3)]))).toBe('bad argument');
  });
});

describe('what has no answer says so', () => {
  it('no window where every place alone holds more than the share', () => {
    const { limits, windowsScanned } = scan([5, 5], [1, 2], { shares: [0.25] });
    expect(limits).toEqual([{ share: 0.25, windows: [] }]);
    expect(windowsScanned).toBe(0);
  });

  it('0 in every replicate at a share that no window fits, whatever the other shares find', () => {
    const counts = { tested: [5, 5, 5, 5], resistant: [4, 2, 0, 0] };
    const range = { seed: 1, from: 0, to: 20 };
    const maxima = (shares: number[]) =>
      nullMaxima(planCircles(line(4), counts, 'bernoulli', { shares }), range);
    expect(maxima([0.5, 0.1])).toEqual([maxima([0.5])[0], new Float64Array(20)]);
    expect(maxima([0.1])).toEqual([new Float64Array(20)]);
  });

  it('no window where the same share is resistant everywhere', () => {
    expect(scan([4, 8, 4], [1, 2, 1]).limits.map(({ windows }) => windows)).toEqual([[], []]);
  });

  it('places without anything tested are neither centre nor member, and are counted', () => {
    const result = scan([3, 0, 3, 3], [3, 0, 0, 0]);
    expect(result).toMatchObject({ placesScanned: 3, placesLeftOut: 1, resistant: 3 });
    expect(result.limits[0]!.windows[0]).toMatchObject({ centre: 0, resistant: 3, relativeRisk: null });
    expect(result.limits[0]!.windows.flatMap(({ places }) => [...places])).not.toContain(1);
  });

  it('p is 1 and the tail null where every replicate is as strong as the data', () => {
    const [window] = scan([1, 1], [1, 0], { shares: [0.5] }).limits[0]!.windows;
    expect(window).toMatchObject({
      p: 1,
      pGumbel: null,
      logLikelihoodRatio: expect.closeTo(2 * Math.LN2, 9),
    });
  });

  it('places at one point join together', () => {
    const points = { x: [0, 0, 5, 9], y: [0, 0, 0, 0], metric: 'plane' } as const;
    const counts = { tested: [4, 4, 4, 4], resistant: [3, 3, 0, 0] };
    const [window] = scanCircles(points, counts, 'bernoulli', run).limits[0]!.windows;
    expect(window).toMatchObject({ places: Int32Array.of(0, 1), radius: 0 });
  });
});
