import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { getisOrd } from '@/lib/stats/getis-ord';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import { inventedMap, relabel, ringWith, subsets } from './invented-map';

const STATISTICS = ['G', 'G*'] as const;

describe.each(STATISTICS)('Getis–Ord %s', (statistic) => {
  const drawnFrom = (values: readonly number[], i: number) =>
    statistic === 'G' ? values.filter((_, j) => j !== i) : values;
  const windowOf = (list: readonly number[], i: number) => (statistic === 'G' ? list : [i, ...list]);

  it('comes to the p, mean and variance over all draws without replacement', () => {
    // Invented values with ties.
    const values = [5, 1, 4, 4, 0, 9, 2, 4];
    const lists = ringWith(8, [
      [0, 4],
      [0, 2],
      [5, 2],
      [5, 7],
    ]);
    const found = getisOrd(values, buildWeights(lists, 'row'), {
      statistic,
      permutations: 40_000,
      random: new Random(2),
    });
    lists.forEach((list, i) => {
      const window = windowOf(list, i);
      const own = sum(window.map((j) => values[j]!));
      const draws = subsets(drawnFrom(values, i), window.length).map(sum);
      const mean = sum(draws) / draws.length;
      const variance = sum(draws.map((draw) => (draw - mean) ** 2)) / draws.length;
      const share = (holds: (draw: number) => boolean) => draws.filter(holds).length / draws.length;
      expect(found.mean[i]).toBeCloseTo(own / window.length, 12);
      expect(found.z[i]).toBeCloseTo((own - mean) / Math.sqrt(variance), 10);
      expect(Math.abs(found.pGreater[i]! - share((draw) => draw >= own))).toBeLessThan(0.0125);
      expect(Math.abs(found.pLess[i]! - share((draw) => draw <= own))).toBeLessThan(0.0125);
    });
  });

  it('does not change with labels, with the unit, or with what counts as nought', () => {
    fc.assert(
      fc.property(inventedMap, ({ lists, values, order }) => {
        const run = (x: readonly number[], nb: number[][]) =>
          getisOrd(Object.freeze(x), buildWeights(nb, 'row'), {
            statistic,
            permutations: 19,
            random: new Random(4),
          });
        const one = run(values, lists);
        const relabelled = run(
          order.map((old) => values[old]!),
          relabel(lists, order),
        );
        const moved = run(
          values.map((value) => 1000 + 3 * value),
          lists,
        );
        order.forEach((old, i) => {
          expect(relabelled.z[i]).toBeCloseTo(one.z[old]!, 9);
          expect(moved.z[old]).toBeCloseTo(one.z[old]!, 9);
          expect(moved.p[old]).toBe(one.p[old]);
          expect(one.p[old]! >= 0.1 && one.p[old]! <= 1).toBe(true);
        });
      }),
      { numRuns: 50 },
    );
  });

  it('mirrors when all values change their sign', () => {
    fc.assert(
      fc.property(inventedMap, ({ lists, values }) => {
        const run = (x: number[]) =>
          getisOrd(x, buildWeights(lists, 'row'), { statistic, permutations: 19, random: new Random(5) });
        const one = run(values);
        const other = run(values.map((value) => -value));
        expect(other.pGreater).toEqual(one.pLess);
        expect(other.pLess).toEqual(one.pGreater);
      }),
      { numRuns: 50 },
    );
  });

  it('names constant values, isolated places and arguments that do not fit', () => {
    const run = { statistic, permutations: 9, random: new Random(1) };
    const ring = buildWeights(ringWith(5, []), 'row');
    const code = (name: string) => expect.objectContaining({ code: name });
    expect(() => getisOrd([3, 3, 3, 3, 3], ring, run)).toThrow(code('constant'));
    expect(() => getisOrd([1, 2, 3], buildWeights([[1], [0], []], 'row'), run)).toThrow(code('isolated'));
    expect(() => getisOrd([1, 2], buildWeights([[1], [0]], 'row'), run)).toThrow(code('too few'));
    expect(() => getisOrd([1, 2], ring, run)).toThrow(code('bad argument'));
    expect(() => getisOrd([1, 2, 3, Number.NaN, 5], ring, run)).toThrow(code('bad argument'));
    expect(() => getisOrd([1, 2, 3, 4, 5], ring, { ...run, permutations: 0 })).toThrow(code('bad argument'));
  });

  it('warns where permutations are too few to flag a place', () => {
    const ring = buildWeights(ringWith(50, []), 'row');
    const values = ring.rowWeight.map((_, i) => i);
    const run = (permutations: number) =>
      getisOrd(values, ring, { statistic, permutations, random: new Random(1) }).resolution;
    expect(run(999)).toMatchObject({ smallestP: 0.002, placesNeeded: 2 });
    expect(run(999).warning).toMatch(/at least 1999/);
    expect(run(1_999).warning).toBeNull();
  });
});

describe('Getis–Ord where nothing can vary', () => {
  const all = [0, 1, 2, 3, 4].map((i) => [0, 1, 2, 3, 4].filter((j) => j !== i));
  const run = { permutations: 99, random: new Random(1) };

  it.each(STATISTICS)('%s has z 0 and p 1 where all are neighbours of all', (statistic) => {
    const found = getisOrd([1, 5, 2, 8, 3], buildWeights(all, 'row'), { ...run, statistic });
    expect([...found.z]).toEqual([0, 0, 0, 0, 0]);
    expect([...found.p]).toEqual([1, 1, 1, 1, 1]);
  });

  it('G has z 0 and p 1 at the only place that differs', () => {
    const found = getisOrd([7, 0.1, 0.1, 0.1, 0.1], buildWeights(ringWith(5, []), 'row'), {
      ...run,
      statistic: 'G',
    });
    expect([found.z[0], found.p[0]]).toEqual([0, 1]);
  });
});

function sum(values: readonly number[]): number {
  return values.reduce((a, b) => a + b, 0);
}
