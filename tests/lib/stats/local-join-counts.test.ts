import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { localJoinCounts } from '@/lib/stats/local-join-counts';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import { inventedMap, lattice, relabel, ringWith, subsets } from './invented-map';

describe('local join counts', () => {
  it('of a lattice of nine with a corner of three found have the p that are counted by hand', () => {
    // Found at 0, 1 and 3: both neighbours of 0 are; of 8 others 2 have it, so C(2, 2) / C(8, 2) = 1 / 28 …
    const found = localJoinCounts([1, 1, 0, 1, 0, 0, 0, 0, 0], buildWeights(lattice(3), 'binary'), {
      permutations: 99,
      random: new Random(1),
    });
    expect([...found.joins]).toEqual([2, 1, 0, 1, 0, 0, 0, 0, 0]);
    expect(found.p[0]).toBeCloseTo(1 / 28, 14);
    // … and for 1, with three neighbours of which one is: 1 − C(6, 3) / C(8, 3) = 36 / 56.
    expect(found.p[1]).toBeCloseTo(36 / 56, 14);
    expect(found.p[4]).toBe(1);
  });

  it('come to the p over all draws without replacement, by permutation and exactly', () => {
    // Invented.
    const values = [1, 0, 1, 1, 0, 0, 1, 0, 1];
    const lists = ringWith(9, [
      [0, 4],
      [0, 2],
      [3, 6],
      [6, 8],
    ]);
    const run = { permutations: 40_000, random: new Random(6) };
    const { joins, p, pPermutation } = localJoinCounts(values, buildWeights(lists, 'row'), run);
    lists.forEach((list, i) => {
      if (values[i] === 0) return;
      const others = values.filter((_, j) => j !== i);
      const draws = subsets(others, list.length).map((draw) => draw.reduce((a, b) => a + b, 0));
      const exact = draws.filter((draw) => draw >= joins[i]!).length / draws.length;
      expect(p[i]).toBeCloseTo(exact, 12);
      expect(Math.abs(pPermutation[i]! - exact)).toBeLessThan(0.0125);
    });
  });

  it('add to twice the joins of found with found, and do not change with labels', () => {
    fc.assert(
      fc.property(inventedMap, ({ lists, values, order }) => {
        const found = values.map((value) => Number(value > values[0]! - 10));
        fc.pre(found.includes(0));
        const run = (x: readonly number[], nb: number[][]) =>
          localJoinCounts(Object.freeze(x), buildWeights(nb, 'binary'), {
            permutations: 9,
            random: new Random(3),
          });
        const one = run(found, lists);
        let pairs = 0;
        lists.forEach((list, i) => {
          for (const j of list) if (i < j && found[i] === 1 && found[j] === 1) pairs += 1;
        });
        expect(one.joins.reduce((a, b) => a + b)).toBe(2 * pairs);
        const other = run(
          order.map((old) => found[old]!),
          relabel(lists, order),
        );
        order.forEach((old, i) => {
          expect(other.joins[i]).toBe(one.joins[old]);
          expect(other.p[i]).toBe(one.p[old]);
          expect(one.p[old]! > 0 && one.p[old]! <= 1).toBe(true);
          expect(one.pPermutation[old]! >= 0.1 && one.pPermutation[old]! <= 1).toBe(true);
        });
      }),
      { numRuns: 50 },
    );
  });

  it('name values that are neither 0 nor 1, nothing to compare, and isolated places', () => {
    const run = { permutations: 9, random: new Random(1) };
    const ring = buildWeights(ringWith(4, []), 'binary');
    const code = (name: string) => expect.objectContaining({ code: name });
    expect(() => localJoinCounts([0, 1, 2, 1], ring, run)).toThrow(code('bad argument'));
    expect(() => localJoinCounts([0, 1, Number.NaN, 1], ring, run)).toThrow(code('bad argument'));
    expect(() => localJoinCounts([0, 0, 0, 0], ring, run)).toThrow(code('constant'));
    expect(() => localJoinCounts([1, 1, 1, 1], ring, run)).toThrow(code('constant'));
    expect(() => localJoinCounts([0, 1, 1], buildWeights([[1], [0], []], 'row'), run)).toThrow(
      code('isolated'),
    );
    expect(() => localJoinCounts([0, 1], buildWeights([[1], [0]], 'row'), run)).toThrow(code('too few'));
  });
});
