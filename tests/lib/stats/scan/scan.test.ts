import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Random } from '@/lib/stats/random';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles, scanCircles } from '@/lib/stats/scan/scan-circles';
import { planCylinders, scanCylinders } from '@/lib/stats/scan/scan-cylinders';
import { planSeasons, scanSeasons } from '@/lib/stats/scan/scan-seasons';
import type { ScanPoints } from '@/lib/stats/scan/types';

// All maps here are invented.
const PLACES = 40;
const random = new Random(11);
const points: ScanPoints = {
  x: Array.from({ length: PLACES }, () => -100 + 8 * random.uniform()),
  y: Array.from({ length: PLACES }, () => 38 + 6 * random.uniform()),
  metric: 'great circle',
};
const tested = Array.from({ length: PLACES }, () => 1 + random.below(12));
const resistant = tested.map((n) => count(n, 0.2, random));
const run = { seed: 1, replicates: 99 };

describe('a scan', () => {
  it('gives the same replicates whole and in parts, in whatever order the parts are computed', () => {
    const seasons = { tested, resistant, seasons: 2 };
    const half = { x: points.x, y: points.y, metric: 'plane' } as ScanPoints;
    const plans = [
      planCircles(points, { tested, resistant }, 'bernoulli'),
      planCircles(points, { tested, resistant }, 'poisson', { direction: 'both' }),
      planCylinders(firstHalf(half), seasons, 'bernoulli'),
      planSeasons(firstHalf(half), { cases: resistant, seasons: 2 }),
    ];
    for (const plan of plans) {
      const whole = nullMaxima(plan, { seed: 9, from: 0, to: 100 });
      const last = nullMaxima(plan, { seed: 9, from: 37, to: 100 });
      const first = nullMaxima(plan, { seed: 9, from: 0, to: 37 });
      expect(whole.map((each) => [...each])).toEqual(whole.map((_, at) => [...first[at]!, ...last[at]!]));
    }
  });

  it('can hand its plan to another thread', () => {
    const plan = planCircles(points, { tested, resistant }, 'bernoulli');
    const range = { seed: 3, from: 0, to: 20 };
    expect(nullMaxima(structuredClone(plan), range)).toEqual(nullMaxima(plan, range));
  });

  it('changes nothing but the names when the places are renamed', () => {
    const renaming = fc.shuffledSubarray([...tested.keys()], { minLength: PLACES, maxLength: PLACES });
    const before = scanCircles(points, { tested, resistant }, 'bernoulli', { ...run, replicates: 1 });
    fc.assert(
      fc.property(renaming, (oldOf) => {
        const after = scanCircles(
          { ...points, x: oldOf.map((old) => points.x[old]!), y: oldOf.map((old) => points.y[old]!) },
          { tested: oldOf.map((old) => tested[old]!), resistant: oldOf.map((old) => resistant[old]!) },
          'bernoulli',
          { ...run, replicates: 1 },
        );
        after.limits.forEach(({ windows }, at) => {
          windows.forEach(({ places, centre, ...window }, rank) => {
            const same = before.limits[at]!.windows[rank]!;
            expect(Array.from(places, (place) => oldOf[place]!).sort((a, b) => a - b)).toEqual([
              ...same.places,
            ]);
            expect(oldOf[centre]).toBe(same.centre);
            expect([window.tested, window.resistant]).toEqual([same.tested, same.resistant]);
          });
        });
      }),
      { numRuns: 20, seed: 4 },
    );
  });

  it('has every p in (0, 1], and never below 1 / (B + 1)', () => {
    const result = scanCircles(points, { tested, resistant }, 'bernoulli', { ...run, direction: 'both' });
    const windows = result.limits.flatMap((limit) => limit.windows);
    expect(windows.length).toBeGreaterThan(4);
    for (const { p, pGumbel } of windows) {
      expect(p).toBeGreaterThanOrEqual(0.01);
      expect(p).toBeLessThanOrEqual(1);
      expect(pGumbel!).toBeGreaterThan(0);
      expect(pGumbel!).toBeLessThanOrEqual(1);
    }
  });

  it('agrees between two seeds within Monte Carlo error', () => {
    const p = [1, 2].map((seed) => {
      const { limits } = scanCircles(points, { tested, resistant }, 'bernoulli', { seed, replicates: 1_999 });
      return limits[0]!.windows[0]!.p;
    });
    expect(p[0]).not.toBe(p[1]);
    expect(Math.abs(p[0]! - p[1]!)).toBeLessThan(4 * Math.sqrt((2 * p[0]! * (1 - p[0]!)) / 1_999));
  });

  it('of equally strong windows takes the one with fewer places, the earlier seasons, the lower centre', () => {
    const line = { x: [0, 1, 5, 9], y: [0, 0, 0, 0], metric: 'plane' } as const;
    const cells = (rows: number[][]) => rows.flat();
    // The second place was tested in one season only, so in the others it adds nothing.
    const tested = cells([
      [4, 4, 4, 4],
      [0, 1, 0, 0],
      [4, 4, 4, 4],
      [4, 4, 4, 4],
    ]);
    const resistant = cells([
      [3, 0, 0, 3],
      [0, 0, 0, 0],
      [0, 0, 0, 0],
      [3, 0, 0, 3],
    ]);
    const counts = { tested, resistant, seasons: 4 };
    const { limits } = scanCylinders(line, counts, 'bernoulli', { ...run, shares: [0.4] });
    const [first, second] = limits[0]!.windows;
    expect(first).toMatchObject({ centre: 0, places: Int32Array.of(0), seasons: [0, 0] });
    expect(second).toMatchObject({ centre: 3, places: Int32Array.of(3), seasons: [0, 0] });
    expect(second!.logLikelihoodRatio).toBe(first!.logLikelihoodRatio);
  });

  it('gives for a seed the result that it always gave', () => {
    const [half, quarter] = scanCircles(points, { tested, resistant }, 'bernoulli', run).limits;
    const [strongest] = half!.windows;
    expect([strongest!.p, strongest!.pGumbel, quarter!.windows[0]!.p]).toMatchInlineSnapshot(`
      [
        0.92,
        0.9336808921099254,
        0.89,
      ]
    `);
    const twenty = firstHalf(points);
    const cylinders = scanCylinders(twenty, { tested, resistant, seasons: 2 }, 'poisson', run);
    const seasons = scanSeasons(twenty, { cases: resistant, seasons: 2 }, run);
    expect([cylinders, seasons].map(({ limits }) => limits[0]!.windows[0]!.p)).toMatchInlineSnapshot(`
      [
        0.83,
        0.93,
      ]
    `);
  });
});

describe('under the null hypothesis', () => {
  // Of 300 maps tested at 0.05, 15 are expected; 4 to 29 hold 99.9 % of the binomial distribution (discreteness of the
  // statistic can only lower it).
  it('the circular scan rejects one map in twenty', () => {
    const rejected = rejections(300, () => {
      const counts = { tested, resistant: tested.map((n) => count(n, 0.15, random)) };
      return scanCircles(points, counts, 'bernoulli', run).limits[0]!.windows[0]!.p;
    });
    expect(rejected).toBeGreaterThanOrEqual(4);
    expect(rejected).toBeLessThanOrEqual(29);
  });

  // The places and the seasons of the cases are drawn apart from each other, so that the null hypothesis holds exactly.
  it('the season permutation rejects one map in twenty although places and seasons differ', () => {
    const seasons = 4;
    const rejected = rejections(300, () => {
      const cases = new Array<number>(20 * seasons).fill(0);
      for (let i = 0; i < 120; i += 1) {
        const place = Math.floor(20 * random.uniform() ** 2);
        cases[place * seasons + Math.floor(seasons * Math.sqrt(random.uniform()))]! += 1;
      }
      return scanSeasons(firstHalf(points), { cases, seasons }, run).limits[0]!.windows[0]!.p;
    });
    expect(rejected).toBeGreaterThanOrEqual(4);
    expect(rejected).toBeLessThanOrEqual(29);
  });
});

describe('a planted cluster', () => {
  it('is found: a disc where most are resistant', () => {
    const near = (i: number) => Math.hypot(points.x[i]! + 96, points.y[i]! - 41) < 1.5;
    const planted = tested.map((n, i) => count(n, near(i) ? 0.8 : 0.1, random));
    const [window] = scanCircles(points, { tested, resistant: planted }, 'bernoulli', run).limits[0]!.windows;
    expect(window!.p).toBe(0.01);
    expect(window!.relativeRisk).toBeGreaterThan(2);
    const inside = [...window!.places];
    expect(inside.filter(near).length).toBeGreaterThan(0.7 * tested.filter((_, i) => near(i)).length);
  });

  it('is found in its seasons, with and without the tested', () => {
    // Few of the places: the season permutation knows no share, and where most cases lie in the cluster what stands
    // out is as well that the others came in the other seasons.
    const near = (i: number) => i < 3;
    const places = [...Array(60).keys()];
    const spots = {
      x: places.map((i) => (near(i) ? i / 10 : i)),
      y: places.map(() => 0),
      metric: 'plane' as const,
    };
    const screened = places.flatMap(() => [8, 8, 8, 8]);
    const found = screened.map((n, cell) => {
      return count(n, near(Math.floor(cell / 4)) && cell % 4 >= 2 ? 0.8 : 0.1, random);
    });
    const counts = { tested: screened, resistant: found, seasons: 4 };
    for (const { limits } of [
      scanCylinders(spots, counts, 'bernoulli', run),
      scanSeasons(spots, { cases: found, seasons: 4 }, run),
    ]) {
      const [window] = limits[0]!.windows;
      expect(window!.seasons).toEqual([2, 3]);
      expect([...window!.places].filter(near)).toEqual([0, 1, 2]);
      expect(window!.p).toBe(0.01);
    }
  });
});

function firstHalf({ x, y, metric }: ScanPoints): ScanPoints {
  return { x: Array.from(x).slice(0, PLACES / 2), y: Array.from(y).slice(0, PLACES / 2), metric };
}

function count(n: number, share: number, stream: Random): number {
  let found = 0;
  for (let i = 0; i < n; i += 1) found += Number(stream.uniform() < share);
  return found;
}

function rejections(maps: number, p: () => number): number {
  let rejected = 0;
  for (let map = 0; map < maps; map += 1) rejected += Number(p() <= 0.05);
  return rejected;
}
