import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { localHypergeometric } from '@/lib/stats/local-hypergeometric';
import { minimumP } from '@/lib/stats/minimum-p';
import { Random } from '@/lib/stats/random';
import { allocation } from '@/lib/stats/scan/allocate';
import { buildWeights } from '@/lib/stats/weights';
import { inventedMap, lattice, ringWith, subsets } from './invented-map';

const ALTERNATIVES = ['greater', 'less', 'two-sided'] as const;

describe('local hypergeometric test', () => {
  it('comes to the share of all ways to choose the resistant among the tested', () => {
    // Invented: 9 tested at four places in a row, 4 of them resistant, 126 choices.
    const tested = [2, 1, 4, 2];
    const resistant = [2, 1, 1, 0];
    const lists = [[1], [0, 2], [1, 3], [2]];
    const found = localHypergeometric(resistant, tested, buildWeights(lists, 'binary'));
    const maps = allMaps(tested, 4);
    lists.forEach((list, i) => {
      const windowOf = (map: readonly number[]) => [i, ...list].reduce((sum, j) => sum + map[j]!, 0);
      const own = windowOf(resistant);
      const share = (holds: (count: number) => boolean) =>
        maps.filter((map) => holds(windowOf(map))).length / maps.length;
      expect(found.windowResistant[i]).toBe(own);
      expect(found.pGreater[i]).toBeCloseTo(
        share((count) => count >= own),
        12,
      );
      expect(found.pLess[i]).toBeCloseTo(
        share((count) => count <= own),
        12,
      );
      expect(found.expected[i]).toBeCloseTo(maps.reduce((sum, map) => sum + windowOf(map), 0) / 126, 12);
    });
  });

  it('does not change when places are relabelled, nor with the style of weights', () => {
    fc.assert(
      fc.property(inventedMap, ({ lists, counts, order }) => {
        const run = (of: typeof counts, nb: number[][], style: 'row' | 'binary') =>
          localHypergeometric(
            Object.freeze(of.map(([, cases]) => cases)),
            Object.freeze(of.map(([tested]) => tested)),
            buildWeights(nb, style),
          );
        const one = run(counts, lists, 'row');
        const now = new Map(order.map((old, i) => [old, i]));
        const other = run(
          order.map((old) => counts[old]!),
          order.map((old) => lists[old]!.map((j) => now.get(j)!)),
          'binary',
        );
        order.forEach((old, i) => {
          expect(other.p[i]).toBe(one.p[old]);
          expect(one.p[old]! > 0 && one.p[old]! <= 1).toBe(true);
        });
      }),
    );
  });

  it('tests a place without neighbours by itself, and finds nothing where none or all are resistant', () => {
    const alone = buildWeights([[1], [0], []], 'row');
    expect(localHypergeometric([0, 0, 2], [2, 2, 2], alone).pGreater[2]).toBeCloseTo(1 / 15, 14);
    expect([...localHypergeometric([0, 0, 0], [2, 2, 2], alone).p]).toEqual([1, 1, 1]);
    expect([...localHypergeometric([2, 2, 2], [2, 2, 2], alone).p]).toEqual([1, 1, 1]);
  });

  it('flags the middle of a planted block of 60 % in a land of 10 % after the adjustment, and nothing far from it', () => {
    const { resistant, tested, weights, middle } = plantedLattice();
    const adjusted = benjaminiHochberg(localHypergeometric(resistant, tested, weights).pGreater);
    for (const i of middle) expect(adjusted[i]).toBeLessThan(0.05);
    expect(adjusted.filter((p, i) => i % 12 > 7 && p <= 0.05).length).toBe(0);
  });

  it('names counts and arguments that do not fit', () => {
    const pair = buildWeights([[1], [0]], 'row');
    const code = (name: string) => expect.objectContaining({ code: name });
    expect(() => localHypergeometric([1, 0], [1, 0], pair)).toThrow(code('nothing tested'));
    expect(() => localHypergeometric([2, 0], [1, 1], pair)).toThrow(code('bad count'));
    expect(() => localHypergeometric([0.5, 0], [1, 1], pair)).toThrow(code('bad count'));
    expect(() => localHypergeometric([0], [1, 1], pair)).toThrow(code('bad argument'));
    expect(() => localHypergeometric([0], [1], pair)).toThrow(code('bad argument'));
    expect(() => localHypergeometric([], [], buildWeights([], 'row'))).toThrow(code('too few'));
  });
});

describe('minimum p', () => {
  it('comes to the share of all maps in which some place is as surprising', () => {
    // Invented, as above; all 126 maps stand for the distribution.
    const tested = [2, 1, 4, 2];
    const resistant = [2, 1, 1, 0];
    const weights = buildWeights([[1], [0, 2], [1, 3], [2]], 'row');
    const replicates = 40_000;
    for (const alternative of ALTERNATIVES) {
      const found = minimumP(resistant, tested, weights, { replicates, random: new Random(3), alternative });
      const minima = allMaps(tested, 4).map((map) =>
        Math.min(...pickP(localHypergeometric(map, tested, weights), alternative)),
      );
      pickP(found.local, alternative).forEach((p, i) => {
        const exact = minima.filter((minimum) => minimum <= p + 1e-12).length / minima.length;
        expect(Math.abs(found.adjusted[i]! - exact)).toBeLessThan(0.0125);
      });
    }
  });

  it.each([
    { name: 'two maps to a word', testedOf: (i: number) => 1 + ((7 * i) % 11), share: 0.3 },
    { name: 'many resistant', testedOf: (i: number) => 1 + ((7 * i) % 11), share: 0.9 },
    { name: 'one map to a word', testedOf: () => 1_500, share: 0.4 },
  ])('is the smallest of all p of each map: $name', ({ testedOf, share }) => {
    // Invented counts on a lattice of 64 places.
    const weights = buildWeights(lattice(8), 'row');
    const tested = Array.from({ length: 64 }, (_, i) => testedOf(i));
    const resistant = tested.map((count) => Math.round(share * count));
    for (const alternative of ALTERNATIVES) {
      for (const midP of [false, true]) {
        const replicates = 31;
        const { minima } = minimumP(resistant, tested, weights, {
          replicates,
          random: new Random(8),
          alternative,
          midP,
        });
        const allocate = allocation({
          allocation: 'among tested',
          tested: Float64Array.from(tested),
          resistant: Int32Array.from(resistant),
          seasons: 1,
          totalResistant: resistant.reduce((a, b) => a + b),
        });
        const random = new Random(8);
        const map = new Int32Array(64);
        const plain = Float64Array.from({ length: replicates }, () => {
          allocate(random, map);
          return Math.min(...pickP(localHypergeometric(map, tested, weights, { midP }), alternative));
        }).sort();
        expect(minima).toEqual(plain);
      }
    }
  });

  it('flags some place on about one null map in twenty at 0.05', () => {
    // Of 300 null maps 15 are expected; 4 to 29 hold 99.9 % of the binomial distribution.
    const { tested, weights } = plantedLattice();
    const random = new Random(12);
    let flagged = 0;
    for (let map = 0; map < 300; map += 1) {
      const resistant = tested.map((count) => {
        let cases = 0;
        for (let k = 0; k < count; k += 1) cases += Number(random.uniform() < 0.2);
        return cases;
      });
      const { adjusted } = minimumP(resistant, tested, weights, { replicates: 99, random });
      flagged += Number(adjusted.some((p) => p <= 0.05));
    }
    expect(flagged).toBeGreaterThanOrEqual(4);
    expect(flagged).toBeLessThanOrEqual(29);
  });

  it('flags the middle of a planted block of 60 % in a land of 10 %', () => {
    const { resistant, tested, weights, middle } = plantedLattice();
    const { adjusted } = minimumP(resistant, tested, weights, { replicates: 999, random: new Random(1) });
    for (const i of middle) expect(adjusted[i]).toBeLessThan(0.05);
  });

  it('gives p in (0, 1] that rise with the p of the place, the same for the same seed', () => {
    fc.assert(
      fc.property(inventedMap, fc.nat(), ({ lists, counts }, seed) => {
        const weights = buildWeights(lists, 'row');
        const run = () =>
          minimumP(
            Object.freeze(counts.map(([, cases]) => cases)),
            Object.freeze(counts.map(([tested]) => tested)),
            weights,
            { replicates: 19, random: new Random(seed) },
          );
        const { local, adjusted } = run();
        adjusted.forEach((p, i) => {
          expect(p > 0 && p <= 1).toBe(true);
          adjusted.forEach((other, j) => {
            if (local.p[i]! < local.p[j]!) expect(p <= other).toBe(true);
          });
        });
        expect(run().adjusted).toEqual(adjusted);
      }),
      { numRuns: 50 },
    );
  });

  it('finds nothing where none or all are resistant, and names arguments that do not fit', () => {
    const ring = buildWeights(ringWith(5, []), 'row');
    const drawn = { replicates: 9, random: new Random(1) };
    expect([...minimumP([0, 0, 0, 0, 0], [3, 3, 3, 3, 3], ring, drawn).adjusted]).toEqual([1, 1, 1, 1, 1]);
    expect([...minimumP([3, 3, 3, 3, 3], [3, 3, 3, 3, 3], ring, drawn).adjusted]).toEqual([1, 1, 1, 1, 1]);
    const bad = expect.objectContaining({ code: 'bad argument' });
    expect(() => minimumP([1, 0, 0, 0, 0], [3, 3, 3, 3, 3], ring, { ...drawn, replicates: 0 })).toThrow(bad);
    expect(() => minimumP([1, 0, 0, 0, 0], [3, 3, 3, 3, 3e6], ring, drawn)).toThrow(bad);
  });
});

function pickP(
  { pGreater, pLess, p }: ReturnType<typeof localHypergeometric>,
  alternative: (typeof ALTERNATIVES)[number],
): Float64Array {
  return { greater: pGreater, less: pLess, 'two-sided': p }[alternative];
}

/** For each choice of the resistant among the tested the counts of the places. */
function allMaps(tested: readonly number[], resistant: number): number[][] {
  const placeOf = tested.flatMap((count, place) => Array<number>(count).fill(place));
  return subsets([...placeOf.keys()], resistant).map((chosen) =>
    tested.map((_, place) => chosen.filter((one) => placeOf[one] === place).length),
  );
}

/** Invented: 12 × 12 places with 6 to 20 tested each, a block of 3 × 3 with a higher share. */
function plantedLattice() {
  const planted = (i: number) => {
    const [row, column] = [Math.floor(i / 12), i % 12];
    return row >= 3 && row <= 5 && column >= 2 && column <= 4;
  };
  const random = new Random(77);
  const tested = Array.from({ length: 144 }, () => 6 + random.below(15));
  const resistant = tested.map((count, i) => {
    let cases = 0;
    for (let k = 0; k < count; k += 1) cases += Number(random.uniform() < (planted(i) ? 0.6 : 0.1));
    return cases;
  });
  // The places most of whose neighbours are in the block.
  const middle = [51, 50, 52, 39, 63];
  return { tested, resistant, middle, weights: buildWeights(lattice(12), 'row') };
}
