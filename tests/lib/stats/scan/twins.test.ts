import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deriveSeed, Random } from '@/lib/stats/random';
import { allocation } from '@/lib/stats/scan/allocate';
import { concludeScan } from '@/lib/stats/scan/conclude';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles } from '@/lib/stats/scan/scan-circles';
import { planCylinders, seasonIntervals } from '@/lib/stats/scan/scan-cylinders';
import { planSeasons } from '@/lib/stats/scan/scan-seasons';
import type { ScanPlan } from '@/lib/stats/scan/types';
import { type PlainScan, plainChoice, plainWindows } from './brute-force';
import { type ScanMap, scanMaps } from './maps';

const SPACE = [[0, 0]] as const;
const circular = (model: 'bernoulli' | 'poisson') => ({
  name: `circles, ${model}`,
  maps: scanMaps(),
  model,
  plan: (map: ScanMap) => planCircles(map.points, map, model, map),
});
const cylindrical = (model: 'bernoulli' | 'poisson') => ({
  name: `cylinders, ${model}`,
  maps: scanMaps({ most: 6, seasons: [2, 5] }),
  model,
  plan: (map: ScanMap) => planCylinders(map.points, map, model, map),
});
const scans = [
  circular('bernoulli'),
  circular('poisson'),
  cylindrical('bernoulli'),
  cylindrical('poisson'),
  {
    name: 'season permutation',
    maps: scanMaps({ most: 6, seasons: [2, 5], largest: 4 }),
    model: 'seasons' as const,
    plan: (map: ScanMap) => planSeasons(map.points, { cases: map.resistant, seasons: map.seasons }, map),
  },
];

describe.each(scans)('$name', ({ maps, model, plan: planOf }) => {
  const scannable = maps.filter((map) => isScannable(map, model === 'seasons' ? map.resistant : map.tested));

  it('finds the windows that trying all of them one by one finds', () => {
    fc.assert(
      fc.property(scannable, (map) => {
        const plan = planOf(frozen(map));
        const result = concludeScan(plan, emptyMaxima(plan), 100);
        map.shares.forEach((share, at) => {
          const windows = plainWindows(plain(map, model, share));
          const found = result.limits[at]!.windows;
          const want = plainChoice(windows).slice(0, 1);
          expect(found.slice(0, 1).map((window) => window.logLikelihoodRatio)).toEqual(
            want.map((ratio) => expect.closeTo(ratio, 8)),
          );
          for (const window of found) {
            const same = windows.filter((other) => other.places.join() === window.places.join());
            const twin = same.find(({ interval }) => interval.join() === window.seasons.join())!;
            expect(window.logLikelihoodRatio).toBeCloseTo(twin.ratio, 8);
            expect(window.resistant).toBe(twin.resistant);
            expect(window.tested ?? window.expected).toBeCloseTo(twin.size, 8);
            expect(Math.min(...same.map(({ radius }) => radius))).toBeLessThanOrEqual(window.radius + 1e-9);
          }
        });
        const counted = map.shares.map((share) =>
          plainWindows({ ...plain(map, model, share), smallestTested: 0 }),
        );
        expect(result.windowsScanned).toBe(Math.max(...counted.map((windows) => windows.length)));
      }),
      { numRuns: 150, seed: 1 },
    );
  });

  it('takes as the next window the strongest that shares no place with those before', () => {
    fc.assert(
      fc.property(scannable, (map) => {
        const plan = planOf(map);
        const result = concludeScan(plan, emptyMaxima(plan), 100);
        map.shares.forEach((share, at) => {
          const windows = plainWindows(plain(map, model, share));
          const taken = new Set<number>();
          const found = result.limits[at]!.windows;
          for (const window of found) {
            const free = windows.filter(({ places }) => !places.some((place) => taken.has(place)));
            expect(window.logLikelihoodRatio).toBeCloseTo(Math.max(...free.map(({ ratio }) => ratio)), 8);
            for (const place of window.places) taken.add(place);
          }
          // Nothing of note is left.
          const left = windows.filter(({ places }) => !places.some((place) => taken.has(place)));
          const least = found.length > 0 && found[0]!.logLikelihoodRatio >= 1 ? 1 : 1e-8;
          expect(left.every(({ ratio }) => ratio < least)).toBe(true);
        });
      }),
      { numRuns: 150, seed: 2 },
    );
  });

  it('gives each replicate the maximum that trying all windows one by one gives', () => {
    fc.assert(
      fc.property(scannable, fc.nat(), (map, seed) => {
        const plan = planOf(map);
        const maxima = nullMaxima(plan, { seed, from: 3, to: 6 });
        const allocate = allocation(plan);
        for (let replicate = 3; replicate < 6; replicate += 1) {
          const counts = new Int32Array(plan.resistant.length);
          allocate(new Random(deriveSeed(seed, `scan replicate ${replicate}`)), counts);
          const resistant = map.resistant.map(() => 0);
          plan.circles.places.forEach((place, i) => {
            for (let season = 0; season < map.seasons; season += 1) {
              resistant[place * map.seasons + season] = counts[i * map.seasons + season]!;
            }
          });
          map.shares.forEach((share, at) => {
            const ratios = plainWindows({ ...plain(map, model, share), resistant }).map(({ ratio }) => ratio);
            expect(maxima[at]![replicate - 3]).toBeCloseTo(Math.max(0, ...ratios), 8);
          });
        }
      }),
      { numRuns: 100, seed: 3 },
    );
  });
});

function isScannable(map: ScanMap, sizes: readonly number[]): boolean {
  const resistant = map.resistant.reduce((a, b) => a + b, 0);
  const tested = map.tested.reduce((a, b) => a + b, 0);
  const places = map.points.x.filter((_, i) =>
    sizes.slice(i * map.seasons, (i + 1) * map.seasons).some((n) => n > 0),
  );
  return places.length >= 2 && resistant > 0 && resistant < tested;
}

function plain(map: ScanMap, model: PlainScan['model'], share: number): PlainScan {
  const intervals = map.seasons === 1 ? SPACE : seasonIntervals(map.seasons);
  return { ...map, model, share, intervals, tested: model === 'seasons' ? map.resistant : map.tested };
}

function emptyMaxima(plan: ScanPlan): Float64Array[] {
  return plan.shares.map(() => new Float64Array(1));
}

function frozen(map: ScanMap): ScanMap {
  for (const part of [map.points.x, map.points.y, map.tested, map.resistant]) Object.freeze(part);
  return map;
}
