import { describe, expect, it } from 'vitest';
import { concludeScan } from '@/lib/stats/scan/conclude';
import { nullMaxima } from '@/lib/stats/scan/null-maxima';
import { planCircles, scanCircles } from '@/lib/stats/scan/scan-circles';
import type { ScanAtLimit } from '@/lib/stats/scan/types';
import counties from './scan-counties.json';
import newYork from './scan-new-york.json';
import carolina from './scan-north-carolina.json';

// Sources of all values: the field `source` of each fixture.
const onSphere = { x: carolina.lon, y: carolina.lat, metric: 'great circle' } as const;
const { deaths1974, births1974, deathsBoth, birthsBoth } = carolina;
const cases = [
  {
    name: 'North Carolina 1974, Bernoulli',
    points: onSphere,
    counts: { resistant: deaths1974, tested: births1974 },
    model: 'bernoulli',
    share: 0.5,
    want: carolina.bernoulli1974,
  },
  {
    name: 'North Carolina 1974, Poisson',
    points: onSphere,
    counts: { resistant: deaths1974, tested: births1974 },
    model: 'poisson',
    share: 0.5,
    want: carolina.poisson1974,
  },
  {
    name: 'North Carolina, both periods, Poisson',
    points: onSphere,
    counts: { resistant: deathsBoth, tested: birthsBoth },
    model: 'poisson',
    share: 0.5,
    want: carolina.poissonBoth,
  },
  {
    name: 'New York, Poisson, one tenth, in the plane',
    points: { x: newYork.x, y: newYork.y, metric: 'plane' },
    counts: { resistant: newYork.cases, tested: newYork.population },
    model: 'poisson',
    share: 0.1,
    want: newYork.poisson,
  },
] as const;

describe.each(cases)('circular scan: $name', ({ points, counts, model, share, want }) => {
  const plan = planCircles(points, counts, model, { shares: [share] });
  const maxima = nullMaxima(plan, { seed: 42, from: 0, to: 9_999 });
  const result = concludeScan(plan, maxima, 3);

  it('looks at the reference number of windows', () => {
    expect(result.windowsScanned).toBe(want.windows);
    expect(result.resistant).toBe(want.totalResistant);
  });

  it('finds the reference windows, each without a place of those before', () => {
    const found = result.limits[0]!.windows;
    expect(found).toHaveLength(3);
    want.clusters.forEach((cluster, at) => {
      const { places, ...window } = found[at]!;
      expect([...places]).toEqual(cluster.places);
      expect(window).toMatchObject({
        centre: cluster.centre,
        tested: cluster.tested,
        resistant: cluster.resistant,
      });
      expect(window.expected).toBeCloseTo(cluster.expected, 8);
      expect(window.logLikelihoodRatio).toBeCloseTo(cluster.ratio, 8);
      expect(window.relativeRisk).toBeCloseTo(cluster.relativeRisk, 8);
      expect(window.radius).toBeCloseTo(cluster.radius, 8);
    });
  });

  it('gives the reference p and null quantiles within Monte Carlo error', () => {
    want.clusters.forEach((cluster, at) => {
      const { p, pGumbel } = result.limits[0]!.windows[at]!;
      // Four standard errors of the difference of two such runs, and one replicate of each.
      const error = 4 * Math.sqrt(cluster.p * (1 - cluster.p) * (1 / want.replicates + 1 / 9_999));
      expect(Math.abs(p - cluster.p)).toBeLessThan(error + 1 / want.replicates + 1e-4);
      expect(Math.abs(pGumbel! - p)).toBeLessThan(0.012);
    });
    const sorted = maxima[0]!.toSorted();
    for (const [quantile, tolerance] of [
      ['50%', 0.12],
      ['90%', 0.25],
      ['95%', 0.4],
    ] as const) {
      const found = sorted[Math.floor((sorted.length * Number.parseInt(quantile, 10)) / 100)]!;
      expect(Math.abs(found - want.nullQuantiles[quantile])).toBeLessThan(tolerance);
    }
  });
});

it('the New York windows are those published', () => {
  const points = { x: newYork.x, y: newYork.y, metric: 'plane' } as const;
  const counts = { resistant: newYork.cases, tested: newYork.population };
  const { limits } = scanCircles(points, counts, 'poisson', { shares: [0.1], seed: 1, replicates: 999 });
  newYork.published.forEach((published, at) => {
    const window = limits[0]!.windows[at]!;
    expect(window.places).toHaveLength(published.places);
    expect([window.tested, window.resistant]).toEqual([published.population, published.cases]);
    expect(window.expected).toBeCloseTo(published.expected, 2);
    expect(window.logLikelihoodRatio).toBeCloseTo(published.ratio, 6);
    expect(Math.abs(window.p - published.p)).toBeLessThan(0.012);
  });
});

it('3,106 counties: the reference window of 4,298,369, with half and with a quarter of the tested', () => {
  const points = { x: counties.lon, y: counties.lat, metric: 'great circle' } as const;
  const result = scanCircles(points, counties, 'bernoulli', { seed: 1, replicates: 99, most: 2 });
  const want = counties.expected;
  expect(result.windowsScanned).toBe(want.windows);
  result.limits.forEach(({ windows: [strongest] }: ScanAtLimit) => {
    expect(strongest).toMatchObject({ centre: want.centre, tested: want.tested, resistant: want.resistant });
    expect([...strongest!.places]).toEqual(want.places);
    expect(strongest!.logLikelihoodRatio).toBeCloseTo(want.ratio, 8);
    expect(strongest!.radius).toBeCloseTo(want.radius, 8);
    expect(strongest!.p).toBe(want.p);
  });
});
