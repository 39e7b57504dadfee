import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Random } from '@/lib/stats/random';
import { type Closeness, mantelTest, spaceTimeMantel } from '@/lib/stats/space-time/mantel';
import { strataShuffle } from '@/lib/stats/space-time/strata-shuffle';
import type { SpaceTimePoints } from '@/lib/stats/space-time/types';

/** Invented finds: whole coordinates and times, so that they tie; two strata. */
const finds = fc.array(fc.tuple(fc.nat(6), fc.nat(6), fc.nat(5), fc.nat(1)), { minLength: 3, maxLength: 12 });
const closeness = fc.constantFrom<Closeness[]>('distance', { space: 2, time: 0.5 });

describe('space-time Mantel', () => {
  it('is the plain correlation over pairs, and its p the (M + 1) / (R + 1) of the same shuffles', () => {
    fc.assert(
      fc.property(finds, closeness, fc.nat(), (list, kind, seed) => {
        const strata = list.map(([, , , stratum]) => stratum);
        const found = spaceTimeMantel(pointsOf(list), { permutations: 9, seed, strata, closeness: kind });
        const { order, shuffle } = strataShuffle(list.length, strata);
        const sorted = [...order].map((i) => list[i]!);
        const observed = correlate(sorted, kind);
        if (observed === null) {
          expect(found).toMatchObject({ r: null, pGreater: 1, pLess: 1, deviation: 0 });
          return;
        }
        expect(found.r).toBeCloseTo(observed, 10);
        const lanes = Array.from({ length: 12 }, () => Float64Array.from(sorted, ([, , time]) => time));
        const random = new Random(seed);
        // Four arrangements run side by side, each shuffled on from where it was.
        for (let r = 0; r < 12; r += 1) {
          if (r >= 4) lanes[r]!.set(lanes[r - 4]!);
          shuffle(lanes[r]!, random);
        }
        const replicates = lanes.slice(0, 9).map(
          (times) =>
            correlate(
              sorted.map(([x, y], at) => [x, y, times[at]!, 0]),
              kind,
            )!,
        );
        expect(found.pGreater).toBeCloseTo(
          (1 + replicates.filter((r) => r >= observed - 1e-12).length) / 10,
          12,
        );
        expect(found.pLess).toBeCloseTo(
          (1 + replicates.filter((r) => r <= observed + 1e-12).length) / 10,
          12,
        );
      }),
    );
  });

  it('equals the test of the two matrices of distances', () => {
    fc.assert(
      fc.property(finds, fc.nat(), (list, seed) => {
        const pairs = list.flatMap((a, i) => list.slice(i + 1).map((b) => [a, b] as const));
        const space = Object.freeze(pairs.map(([a, b]) => Math.hypot(a[0] - b[0], a[1] - b[1])));
        const time = Object.freeze(pairs.map(([a, b]) => Math.abs(a[2] - b[2])));
        const one = spaceTimeMantel(pointsOf(list), { permutations: 19, seed });
        const other = mantelTest(space, time, { permutations: 19, seed });
        expect(other.r === null).toBe(one.r === null);
        if (one.r === null) return;
        expect(other.r).toBeCloseTo(one.r, 10);
        expect(other.pGreater).toBe(one.pGreater);
        // Two matrices have no order that would make one the first.
        expect(mantelTest(time, space, { permutations: 1, seed }).r).toBeCloseTo(one.r, 10);
      }),
    );
  });

  it('does not change with the unit of space or of time', () => {
    fc.assert(
      fc.property(finds, fc.nat(), (list, seed) => {
        const one = spaceTimeMantel(pointsOf(list), { permutations: 19, seed });
        const other = spaceTimeMantel(
          pointsOf(list.map(([x, y, time, stratum]) => [8 * x, 8 * y, 4 * time + 2000, stratum])),
          { permutations: 19, seed },
        );
        if (one.r !== null) expect(other.r).toBeCloseTo(one.r, 10);
        expect(other.pGreater).toBe(one.pGreater);
      }),
    );
  });

  it('finds a front, and says how many finds could move', () => {
    // Invented: one find a place along a line, each a season later than the last.
    const line = Array.from({ length: 20 }, (_, i): [number, number, number, number] => [i, 0, i, 0]);
    const found = spaceTimeMantel(pointsOf(line), { permutations: 999, seed: 2 });
    expect(found.r).toBeCloseTo(1, 12);
    expect(found).toMatchObject({ pGreater: 1 / 1000, pLess: 1, movable: 20 });
    const alone = { permutations: 99, seed: 2, strata: line.map((_, i) => i) };
    expect(spaceTimeMantel(pointsOf(line), alone)).toMatchObject({ pGreater: 1, pLess: 1, movable: 0 });
  });

  it('has no correlation where all lie at one place or time, and refuses fewer than three', () => {
    const run = { permutations: 9, seed: 1 };
    const still = { x: [0, 1, 2], y: [0, 0, 0], time: [5, 5, 5], metric: 'plane' } as const;
    expect(spaceTimeMantel(still, run)).toMatchObject({ r: null, pGreater: 1, pLess: 1, movable: 0 });
    expect(spaceTimeMantel({ ...still, x: [1, 1, 1], time: [1, 2, 3] }, run).r).toBeNull();
    const two = { x: [0, 1], y: [0, 0], time: [1, 2], metric: 'plane' } as const;
    expect(() => spaceTimeMantel(two, run)).toThrow(/Got 2 items/);
    expect(() => spaceTimeMantel(still, { ...run, closeness: { space: 0, time: 1 } })).toThrow(
      /constants 0, 1/,
    );
    expect(() => mantelTest([1, 2], [1, 2], run)).toThrow(/Got 2 entries/);
    expect(() => mantelTest([1, 2, 3], [1, 2], run)).toThrow(/lengths 3 and 2/);
  });
});

function pointsOf(list: readonly (readonly [number, number, number, number])[]): SpaceTimePoints {
  return {
    x: Object.freeze(list.map(([x]) => x)),
    y: Object.freeze(list.map(([, y]) => y)),
    time: Object.freeze(list.map(([, , time]) => time)),
    metric: 'plane',
  };
}

function correlate(list: readonly (readonly number[])[], kind: Closeness): number | null {
  const scaled = (distance: number, constant: number | null) =>
    constant === null ? distance : 1 / (distance + constant);
  const pairs = list.flatMap((a, i) => list.slice(i + 1).map((b) => [a, b] as const));
  const [space, time] = kind === 'distance' ? [null, null] : [kind.space, kind.time];
  const first = pairs.map(([a, b]) => scaled(Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!), space));
  const second = pairs.map(([a, b]) => scaled(Math.abs(a[2]! - b[2]!), time));
  const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [s, t] = [mean(first), mean(second)];
  const ss = mean(first.map((value) => (value - s) ** 2));
  const tt = mean(second.map((value) => (value - t) ** 2));
  if (ss < 1e-12 || tt < 1e-12) return null;
  return mean(first.map((value, i) => (value - s) * (second[i]! - t))) / Math.sqrt(ss * tt);
}
