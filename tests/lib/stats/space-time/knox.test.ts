import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Random } from '@/lib/stats/random';
import { greatCircle } from '@/lib/stats/scan/great-circle';
import { knox } from '@/lib/stats/space-time/knox';
import { knoxAmongTested } from '@/lib/stats/space-time/knox-among-tested';
import { knoxPoisson } from '@/lib/stats/space-time/knox-poisson';
import { strataShuffle } from '@/lib/stats/space-time/strata-shuffle';
import { testingStrata } from '@/lib/stats/space-time/testing-strata';
import type { KnoxGrid, SpaceTimePoints } from '@/lib/stats/space-time/types';

const grid: KnoxGrid = { distances: [0, 1, 2.5], lags: [0, 1, 3] };
/** Invented events on a small lattice, so that distances and times tie; with a stratum and a label each. */
const events = fc.array(
  fc.record({
    x: fc.integer({ min: 0, max: 4 }),
    y: fc.integer({ min: 0, max: 4 }),
    time: fc.integer({ min: 2015, max: 2021 }),
    stratum: fc.nat(2),
    resistant: fc.nat(1),
  }),
  { minLength: 2, maxLength: 14 },
);
type Event = { x: number; y: number; time: number; stratum: number; resistant: number };

describe('Knox', () => {
  it('counts the pairs that the definition counts, at each distance and lag', () => {
    fc.assert(
      fc.property(events, (list) => {
        const { cells } = knox(pointsOf(list), grid, { permutations: 3, seed: 1, strata: strataOf(list) });
        expect(cells.map(({ observed }) => observed)).toEqual(countByDefinition(list));
      }),
    );
  });

  it('has the mean and the p of all arrangements of the times, listed one by one', () => {
    // Invented: four events at two places.
    const list = [
      [0, 2015],
      [0, 2015],
      [9, 2017],
      [9, 2018],
    ].map(([x, time]) => ({ x: x!, y: 0, time: time!, stratum: 0, resistant: 1 }));
    const run = { permutations: 9999, seed: 5 };
    const { cells } = knox(pointsOf(list), { distances: [0], lags: [0] }, run);
    // Of the three pairings of four, one has both of 2015 at one place, with either place: 8 of 24 orders.
    expect(cells[0]!.observed).toBe(1);
    expect(Math.abs(cells[0]!.expected - 1 / 3)).toBeLessThan(0.015);
    expect(Math.abs(cells[0]!.p - 1 / 3)).toBeLessThan(0.015);
  });

  it('moves times inside strata only: finds each alone in its stratum stay, and all p are 1', () => {
    fc.assert(
      fc.property(events, (list) => {
        const run = { permutations: 7, seed: 2, strata: list.map((_, i) => i) };
        const found = knox(pointsOf(list), grid, run);
        expect(found).toMatchObject({ movable: 0, p: 1 });
        expect(found.cells.every((cell) => cell.expected === cell.observed && cell.deviation === 0)).toBe(
          true,
        );
      }),
    );
  });

  it('is as sure of the grid as its surest cell, and never surer than the cell alone', () => {
    fc.assert(
      fc.property(events, fc.nat(), (list, seed) => {
        const { cells, p } = knox(pointsOf(list), grid, { permutations: 49, seed });
        expect(p).toBe(Math.min(...cells.map(({ adjusted }) => adjusted)));
        for (const cell of cells) {
          expect(cell.p >= 0.02 && cell.p <= cell.adjusted && cell.adjusted <= 1).toBe(true);
          // Bonferroni's bound, the p of the permutations being exact among themselves.
          expect(cell.adjusted).toBeLessThanOrEqual(Math.min(1, 9 * cell.p) + 1e-12);
        }
      }),
    );
  });

  it('gives one cell the p of the (M + 1) / (R + 1) that is counted here from the same shuffles', () => {
    fc.assert(
      fc.property(events, fc.nat(), (list, seed) => {
        const strata = strataOf(list);
        const { cells } = knox(pointsOf(list), grid, { permutations: 19, seed, strata });
        const { order, shuffle } = strataShuffle(list.length, strata);
        const sorted = [...order].map((i) => list[i]!);
        const times = Float64Array.from(sorted, ({ time }) => time);
        const random = new Random(seed);
        const observed = countByDefinition(list);
        const atLeast = observed.map(() => 1);
        for (let r = 0; r < 19; r += 1) {
          shuffle(times, random);
          const counts = countByDefinition(sorted.map((each, at) => ({ ...each, time: times[at]! })));
          counts.forEach((count, cell) => {
            if (count >= observed[cell]!) atLeast[cell]! += 1;
          });
        }
        cells.forEach((cell, k) => {
          expect(cell.p).toBeCloseTo(atLeast[k]! / 20, 12);
        });
      }),
    );
  });

  it('measures in km on the sphere', () => {
    const points = {
      x: [-92, -91.5, -91],
      y: [38, 38, 38],
      time: [1, 1, 1],
      metric: 'great circle',
    } as const;
    const near = greatCircle(-92, 38, -91.5, 38);
    const { cells } = knox(
      points,
      { distances: [near - 0.01, near + 0.01], lags: [0] },
      { permutations: 1, seed: 1 },
    );
    expect(cells.map(({ observed }) => observed)).toEqual([0, 2]);
  });

  it('takes testing that moves for spread without strata, and does not within them', () => {
    // Invented: two halves of a state tested in turn, the same share everywhere.
    const rejected = nullMaps(30, ({ points, resistant, strata }) => {
      const finds = resistant.flatMap((label, i) => (label ? [i] : []));
      const of = (values: ArrayLike<number>) => finds.map((i) => values[i]!);
      const own = { ...points, x: of(points.x), y: of(points.y), time: of(points.time) };
      const run = { permutations: 99, seed: 4 };
      const small = { distances: [40], lags: [0, 1] };
      return [
        knox(own, small, run).p <= 0.05,
        knox(own, small, { ...run, strata: of(strata) }).p <= 0.05,
        knoxAmongTested(points, resistant, small, run).p <= 0.05,
      ];
    });
    expect(rejected[0]).toBe(30);
    // More than 5 of 30 at a true level of 5 % happens in 0.3 % of such runs; this one is seeded.
    expect(rejected[1]).toBeLessThan(6);
    expect(rejected[2]).toBeLessThan(6);
  });

  it('refuses a lone event, limits that do not rise and what is no number', () => {
    const run = { permutations: 9, seed: 1 };
    const two = { x: [0, 1], y: [0, 1], time: [1, 2], metric: 'plane' } as const;
    expect(() => knox({ ...two, x: [0], y: [0], time: [1] }, grid, run)).toThrow(/Got 1 points/);
    expect(() => knox(two, { distances: [2, 1], lags: [0] }, run)).toThrow(/Got limits 2, 1/);
    expect(() => knox(two, { distances: [], lags: [0] }, run)).toThrow(/Got limits/);
    expect(() => knox({ ...two, time: [1, Number.NaN] }, grid, run)).toThrow(/Point 1 is 1, 1 at time NaN/);
    expect(() => knox(two, grid, { ...run, permutations: 0 })).toThrow(/0 permutations/);
    expect(() => knox(two, grid, { ...run, strata: [1] })).toThrow(/lengths 2 and 1/);
  });
});

describe('Knox among the tested', () => {
  it('counts the pairs of resistant populations, and finds nothing where all or none of a date are', () => {
    fc.assert(
      fc.property(events, (list) => {
        const resistant = list.map((each) => each.resistant);
        const found = knoxAmongTested(pointsOf(list), resistant, grid, { permutations: 5, seed: 1 });
        expect(found.cells.map(({ observed }) => observed)).toEqual(
          countByDefinition(list.filter((each) => each.resistant)),
        );
        const byDate = list.map(({ time }) => time % 2);
        const even = knoxAmongTested(pointsOf(list), byDate, grid, { permutations: 5, seed: 1 });
        expect(even).toMatchObject({ p: 1, movable: 0 });
      }),
    );
  });

  it('has the mean of the hypergeometric pairs: C(marked, 2) / C(tested, 2) of the close ones on one date', () => {
    // Invented: 12 tested on one date along a line, 5 resistant; 11 pairs at distance 1.
    const points = {
      x: Array.from({ length: 12 }, (_, i) => i),
      y: new Float64Array(12),
      time: new Float64Array(12),
      metric: 'plane',
    } as const;
    const resistant = Int32Array.from({ length: 12 }, (_, i) => Number(i < 5));
    const run = { permutations: 9999, seed: 3 };
    const { cells } = knoxAmongTested(points, resistant, { distances: [1], lags: [0] }, run);
    expect(cells[0]!.observed).toBe(4);
    expect(Math.abs(cells[0]!.expected - (11 * 10) / 66)).toBeLessThan(0.04);
    // All five in a row: 8 of C(12, 5) = 792.
    expect(Math.abs(cells[0]!.p - 8 / 792)).toBeLessThan(0.0035);
  });

  it('refuses a label but 0 and 1', () => {
    const two = { x: [0, 1], y: [0, 1], time: [1, 2], metric: 'plane' } as const;
    expect(() => knoxAmongTested(two, [0, 2], grid, { permutations: 9, seed: 1 })).toThrow(/got resistant 2/);
  });
});

it('places tested in the same seasons share a code, and no others', () => {
  expect([...testingStrata([1, 0, 3, 2, 0, 1, 1, 1, 1, 0, 0, 0], 3)]).toEqual([0, 0, 1, 2]);
  expect(() => testingStrata([1, 2, 3], 2)).toThrow(/Got 3 counts, 2 seasons/);
});

it('a shuffle keeps each stratum’s labels', () => {
  fc.assert(
    fc.property(events, fc.nat(), (list, seed) => {
      const strata = Object.freeze(strataOf(list));
      const { order, shuffle } = strataShuffle(list.length, strata);
      const labels = Int32Array.from(order, (i) => list[i]!.time);
      shuffle(labels, new Random(seed));
      for (const code of new Set(strata)) {
        const before = list.filter(({ stratum }) => stratum === code).map(({ time }) => time);
        const after = [...labels].filter((_, at) => strata[order[at]!] === code);
        expect(after.sort()).toEqual(before.sort());
      }
    }),
  );
});

it('Knox’s quick test sums to 1 with its complement, and refuses what cannot be', () => {
  const margins = { pairs: 100, closeInSpace: 60, closeInTime: 50 };
  let term = Math.exp(-30);
  let below = 0;
  for (let k = 0; k < 50; k += 1) {
    expect(knoxPoisson(k, margins).p).toBeCloseTo(1 - below, 10);
    below += term;
    term *= 30 / (k + 1);
  }
  expect(knoxPoisson(0, { ...margins, closeInSpace: 0 })).toEqual({ expected: 0, p: 1 });
  expect(() => knoxPoisson(51, margins)).toThrow(/Got 51 of 60 and 50/);
  expect(() => knoxPoisson(1, { ...margins, closeInSpace: 101 })).toThrow(/101 and 50 close of 100/);
});

function pointsOf(list: readonly Event[]): SpaceTimePoints {
  return {
    x: Object.freeze(list.map(({ x }) => x)),
    y: Object.freeze(list.map(({ y }) => y)),
    time: Object.freeze(list.map(({ time }) => time)),
    metric: 'plane',
  };
}

function strataOf(list: readonly Event[]): number[] {
  return list.map(({ stratum }) => stratum);
}

function countByDefinition(list: readonly Event[]): number[] {
  return grid.distances.flatMap((distance) =>
    grid.lags.map(
      (lag) =>
        list
          .flatMap((a, i) => list.slice(i + 1).map((b) => [a, b] as const))
          .filter(
            ([a, b]) => Math.hypot(a.x - b.x, a.y - b.y) <= distance && Math.abs(a.time - b.time) <= lag,
          ).length,
    ),
  );
}

interface NullMap {
  points: SpaceTimePoints;
  resistant: number[];
  strata: number[];
}

/** How often each of some tests rejects on maps of 7 × 7 places, a quarter resistant, west tested first, east later. */
function nullMaps(maps: number, tests: (map: NullMap) => boolean[]): number[] {
  const random = new Random(17);
  const rejected: number[] = [];
  for (let map = 0; map < maps; map += 1) {
    const rows: number[][] = [];
    for (let place = 0; place < 49; place += 1) {
      const [x, y] = [(place % 7) * 40, Math.floor(place / 7) * 40];
      for (let season = 0; season < 8; season += 1) {
        if (x < 120 !== season < 4) continue;
        const tested = 1 + random.below(4);
        for (let i = 0; i < tested; i += 1)
          rows.push([x, y, season, Number(random.uniform() < 0.25), Number(x < 120)]);
      }
    }
    const column = (k: number) => rows.map((row) => row[k]!);
    const points = { x: column(0), y: column(1), time: column(2), metric: 'plane' } as const;
    tests({ points, resistant: column(3), strata: column(4) }).forEach((found, k) => {
      rejected[k] = (rejected[k] ?? 0) + Number(found);
    });
  }
  return rejected;
}
