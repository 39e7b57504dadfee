import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { StatsError } from '@/lib/stats/errors';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import { nearestFound } from '@/lib/stats/spread/nearest-found';
import { nearness } from '@/lib/stats/spread/nearness';
import { nearnessDistance } from '@/lib/stats/spread/nearness-distance';
import { nearnessStrata } from '@/lib/stats/spread/nearness-strata';
import { buildWeights } from '@/lib/stats/weights';
import { relabel, subsets } from '../invented-map';
import { counted, inventedCounts, NOTHING_TO_COMPARE } from './invented-counts';

// Invented: a chain of six places, four seasons; place 0 is found at once, its neighbours follow.
const chain = buildWeights([[1], [0, 2], [1, 3], [2, 4], [3, 5], [4]], 'binary');
const front = counted([
  [
    [1, 1],
    [0, 1],
    [0, 1],
    [0, 1],
    [0, 1],
    [0, 1],
  ],
  [
    [0, 1],
    [1, 1],
    [0, 1],
    [0, 1],
    [0, 1],
    [0, 1],
  ],
  [
    [0, 0],
    [0, 0],
    [1, 1],
    [0, 1],
    [0, 1],
    [0, 1],
  ],
  [
    [0, 0],
    [0, 0],
    [0, 0],
    [1, 1],
    [0, 1],
    [0, 1],
  ],
]);
const line = { x: [0, 1, 2, 3, 4, 5], y: [0, 0, 0, 0, 0, 0], metric: 'plane' } as const;

describe('nearness', () => {
  it('multiplies the chances of seasons: 1/5 · 1/4 · 1/3 when the one neighbour is the one that is new', () => {
    const found = nearness(front, chain);
    expect(found.p).toBeCloseTo(1 / 60, 14);
    expect(found.midP).toBeCloseTo(1 / 120, 14);
    expect(found).toMatchObject({ observed: 3, newFinds: 3, informative: 3, reason: 'infinite', high: null });
    expect(found.expected).toBeCloseTo(1 / 5 + 1 / 4 + 1 / 3, 14);
  });

  it('has the p of all ways to say who is new, counted one by one', () => {
    fc.assert(
      fc.property(inventedCounts, fc.constantFrom('season and tested', 'season', 'none'), (map, strata) => {
        const counts = counted(map.rows, map.seasons);
        const found = nearness(counts, buildWeights(map.lists, 'binary'), { strata: strata as 'none' });
        const ways = found.tables.map(({ nearNew, near, farNew, far }) => {
          const members = Array.from({ length: near + far }, (_, i) => Number(i < near));
          const sums = subsets(members, nearNew + farNew).map((chosen) => chosen.reduce((a, b) => a + b, 0));
          return sums;
        });
        const combinations = ways.reduce((product, sums) => product * sums.length, 1);
        fc.pre(combinations < 20_000);
        const all = ways.reduce<number[]>((sums, own) => sums.flatMap((a) => own.map((b) => a + b)), [0]);
        const observed = found.tables.reduce((sum, { nearNew }) => sum + nearNew, 0);
        const atLeast = all.filter((sum) => sum >= observed).length / all.length;
        const equal = all.filter((sum) => sum === observed).length / all.length;
        expect(found.p).toBeCloseTo(atLeast, 12);
        expect(found.midP).toBeCloseTo(found.informative === 0 ? 1 : atLeast - equal / 2, 12);
      }),
    );
  });

  it('does not care for the names of places', () => {
    fc.assert(
      fc.property(inventedCounts, (map) => {
        const now = map.rows.map((row) => map.order.map((old) => row[old]!));
        const before = nearness(counted(map.rows), buildWeights(map.lists, 'binary'));
        const after = nearness(counted(now), buildWeights(relabel(map.lists, map.order), 'binary'));
        expect(after).toEqual(before);
        expect(before.p).toBeGreaterThan(0);
        expect(before.p).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('leaves out a place without neighbours, and says so', () => {
    const islands = buildWeights([[1], [0], []], 'binary');
    const found = nearness(
      counted([
        [
          [1, 1],
          [0, 1],
          [0, 1],
        ],
        [
          [0, 1],
          [0, 1],
          [1, 1],
        ],
      ]),
      islands,
    );
    expect(found).toMatchObject({ newFinds: 1, isolated: 1, p: 1, reason: 'nothing varies' });
  });

  it.each(NOTHING_TO_COMPARE)('has p 1 and no odds ratio where there is only %s', (_, counts) => {
    const pair = buildWeights([[1], [0]], 'binary');
    expect(nearness(counts, pair)).toMatchObject({
      p: 1,
      midP: 1,
      oddsRatio: null,
      reason: 'nothing varies',
    });
    const run = { permutations: 99, seed: 1 };
    expect(nearnessDistance(counts, { x: [0, 1], y: [0, 0], metric: 'plane' }, run)).toMatchObject({
      p: 1,
      observed: null,
      newFinds: 0,
    });
  });

  it('puts 1, 2–3 and 4 or more tested into classes of their own', () => {
    const counts = counted([
      Array(5).fill([0, 1]),
      [1, 2, 3, 4, 9].map((tested) => [0, tested] as [number, number]),
    ]);
    expect([...nearnessStrata(atRisk(counts), 'season and tested')]).toEqual([3, 4, 4, 5, 5]);
    expect(() => nearnessStrata(atRisk(counts), 'season', [2, 4])).toThrow(StatsError);
  });
});

describe('nearness by distance', () => {
  it('has, within Monte Carlo error, the p of all ways to say who is new', () => {
    fc.assert(
      fc.property(inventedCounts, fc.nat(1000), (map, seed) => {
        const counts = counted(map.rows, map.seasons);
        const points = { x: map.x, y: map.y, metric: 'plane' } as const;
        const found = nearnessDistance(counts, points, { permutations: 999, seed, strata: 'season' });
        const known = arrivals(counts);
        const panel = atRisk(counts, known);
        const away = nearestFound(panel, known, points);
        const ways = map.rows.map((_, t) => {
          const rows = [...panel.place.keys()].filter(
            (r) => panel.season[r] === t && Number.isFinite(away[r]),
          );
          const chosen = rows.filter((row) => panel.isNew[row] === 1);
          if (chosen.length === 0 || chosen.length === rows.length) return { sums: [0], seen: 0 };
          const sum = (list: number[]) => list.reduce((total, row) => total + away[row]!, 0);
          return { sums: subsets(rows, chosen.length).map(sum), seen: sum(chosen) };
        });
        fc.pre(ways.reduce((product, { sums }) => product * sums.length, 1) < 20_000);
        const all = ways.reduce<number[]>(
          (list, { sums }) => list.flatMap((a) => sums.map((b) => a + b)),
          [0],
        );
        const seen = ways.reduce((total, each) => total + each.seen, 0);
        const exact = all.filter((sum) => sum <= seen + 1e-9).length / all.length;
        const error = 5 * Math.sqrt((exact * (1 - exact)) / 999) + 0.002;
        expect(Math.abs(found.p - exact)).toBeLessThan(error);
      }),
      { numRuns: 60 },
    );
  });

  it('sees a front, and gives the same answer to the same seed', () => {
    const run = { permutations: 999, seed: 3 };
    const found = nearnessDistance(front, line, run);
    expect(found).toMatchObject({ observed: 1, newFinds: 3 });
    expect(found.expected).toBeGreaterThan(1.5);
    expect(found.p).toBeLessThan(0.05);
    expect(nearnessDistance(front, line, run)).toEqual(found);
  });
});
