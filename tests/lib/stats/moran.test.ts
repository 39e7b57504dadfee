import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { localMoran } from '@/lib/stats/local-moran';
import { moran } from '@/lib/stats/moran';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { weightMoments } from '@/lib/stats/weight-moments';
import { buildWeights, type WeightStyle } from '@/lib/stats/weights';
import { relabel, ringWith } from './invented-map';

/** A random graph without isolated places: a ring with some chords, and values that differ. Invented. */
const map = fc.integer({ min: 4, max: 16 }).chain((n) =>
  fc.record({
    values: fc.uniqueArray(fc.integer({ min: -50, max: 50 }), { minLength: n, maxLength: n }),
    chords: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: n }),
    style: fc.constantFrom<WeightStyle>('row', 'binary'),
    order: fc.shuffledSubarray([...Array(n).keys()], { minLength: n }),
  }),
);

describe('Moran index', () => {
  it('is the double sum over a full matrix of weights', () => {
    fc.assert(
      fc.property(map, ({ values, chords, style }) => {
        const lists = ringWith(values.length, chords);
        expect(moran(values, buildWeights(lists, style)).index).toBeCloseTo(
          doubleSum(values, lists, style),
          10,
        );
      }),
    );
  });

  it('and its moments do not change when places are relabelled', () => {
    fc.assert(
      fc.property(map, ({ values, chords, style, order }) => {
        const lists = ringWith(values.length, chords);
        const one = moran(values, buildWeights(lists, style));
        const relabelled = relabel(lists, order);
        const other = moran(
          order.map((old) => values[old]!),
          buildWeights(relabelled, style),
        );
        expect(other.index).toBeCloseTo(one.index, 10);
        expect(other.randomisation?.variance ?? 0).toBeCloseTo(one.randomisation?.variance ?? 0, 10);
        expect(other.normality?.variance ?? 0).toBeCloseTo(one.normality?.variance ?? 0, 10);
      }),
    );
  });

  it('is S0 times smaller than the sum of the local indices', () => {
    fc.assert(
      fc.property(map, ({ values, chords, style }) => {
        const weights = buildWeights(ringWith(values.length, chords), style);
        const { index } = localMoran(values, weights, { permutations: 1, random: new Random(1) });
        const total = index.reduce((a, b) => a + b);
        expect(total).toBeCloseTo(weightMoments(weights).s0 * moran(values, weights).index, 9);
      }),
    );
  });

  it('has S1 and S2 as the full matrix says, also where neighbourhood is not mutual', () => {
    const weights = buildWeights([[1, 2], [2], [0]], 'row');
    // By hand: w01 = w02 = ½, w12 = 1, w20 = 1; ½ Σ (w_ij + w_ji)² = ¼ + 1 + 2.25; (1 + 1)² + (1 + ½)² + (1 + 1½)².
    expect(weightMoments(weights)).toEqual({ s0: 3, s1: 3.5, s2: 12.5 });
  });

  it('has no variance where all are neighbours of all, and says so', () => {
    const all = [0, 1, 2, 3, 4].map((i) => [0, 1, 2, 3, 4].filter((j) => j !== i));
    const { index, expected, normality, randomisation } = moran([1, 5, 2, 8, 3], buildWeights(all, 'row'));
    expect(index).toBeCloseTo(expected, 12);
    expect([normality, randomisation]).toEqual([null, null]);
  });
});

describe('permutation of the Moran index', () => {
  it('comes to the p over all 720 orders of six values, ties counted on both sides', () => {
    const values = [0, 0, 1, 3, 3, 7];
    const lists = ringWith(6, [[0, 3]]);
    const all = orders([0, 1, 2, 3, 4, 5]).map((order) =>
      doubleSum(
        order.map((i) => values[i]!),
        lists,
        'row',
      ),
    );
    const own = doubleSum(values, lists, 'row');
    const found = moranPermutation(values, buildWeights(lists, 'row'), {
      permutations: 40_000,
      random: new Random(9),
    });
    const exact = (holds: (index: number) => boolean) => all.filter(holds).length / 720;
    expect(Math.abs(found.pGreater - exact((index) => index >= own - 1e-9))).toBeLessThan(0.0125);
    expect(Math.abs(found.pLess - exact((index) => index <= own + 1e-9))).toBeLessThan(0.0125);
    expect(found.pGreater + found.pLess).toBeGreaterThan(1);
  });

  it('gives p in (0, 1], the same for the same seed, and leaves its input alone', () => {
    fc.assert(
      fc.property(map, fc.nat(), ({ values, chords, style }, seed) => {
        const frozen = Object.freeze([...values]);
        const weights = buildWeights(ringWith(values.length, chords), style);
        const run = () => moranPermutation(frozen, weights, { permutations: 19, random: new Random(seed) });
        const { pGreater, pLess } = run();
        expect(pGreater > 0 && pGreater <= 1 && pLess > 0 && pLess <= 1).toBe(true);
        expect(run()).toEqual(run());
      }),
      { numRuns: 50 },
    );
  });
});

describe('local Moran index', () => {
  it('comes to the p over all draws without replacement of a place’s neighbours from the others', () => {
    const values = [5, 1, 4, 4, 0, 9, 2, 4];
    const lists = ringWith(8, [
      [0, 4],
      [0, 2],
      [5, 2],
      [5, 7],
    ]);
    const found = localMoran(values, buildWeights(lists, 'row'), {
      permutations: 40_000,
      random: new Random(2),
    });
    lists.forEach((list, i) => {
      const mean = 29 / 8;
      const own = values[i]! - mean;
      const others = values.filter((_, j) => j !== i);
      const draws = subsets(others, list.length).map((draw) => own * draw.reduce((s, v) => s + v - mean, 0));
      const observed = own * list.reduce((s, j) => s + values[j]! - mean, 0);
      const exactGreater = draws.filter((draw) => draw >= observed - 1e-9).length / draws.length;
      const exactLess = draws.filter((draw) => draw <= observed + 1e-9).length / draws.length;
      expect(Math.abs(found.pGreater[i]! - exactGreater)).toBeLessThan(0.0125);
      expect(Math.abs(found.pLess[i]! - exactLess)).toBeLessThan(0.0125);
    });
  });

  it('gives p in [2 / (R + 1), 1] and moments that do not depend on labels', () => {
    fc.assert(
      fc.property(map, ({ values, chords, style, order }) => {
        const lists = ringWith(values.length, chords);
        const run = (x: number[], nb: number[][]) =>
          localMoran(x, buildWeights(nb, style), { permutations: 19, random: new Random(4) });
        const one = run(values, lists);
        const other = run(
          order.map((old) => values[old]!),
          relabel(lists, order),
        );
        for (const p of one.p) expect(p >= 0.1 && p <= 1).toBe(true);
        order.forEach((old, i) => {
          expect(other.index[i]).toBeCloseTo(one.index[old]!, 9);
          expect(other.expected[i]).toBeCloseTo(one.expected[old]!, 9);
          expect(other.variance[i]).toBeCloseTo(one.variance[old]!, 9);
        });
      }),
      { numRuns: 50 },
    );
  });

  it('gives p within Monte Carlo error for two seeds', () => {
    const values = [3, 9, 1, 7, 2, 8, 4, 6, 5, 0];
    const weights = buildWeights(ringWith(10, [[0, 5]]), 'row');
    const run = (seed: number) =>
      localMoran(values, weights, { permutations: 9_999, random: new Random(seed) });
    const [one, other] = [run(1), run(2)];
    one.pGreater.forEach((p, i) => {
      expect(Math.abs(p - other.pGreater[i]!)).toBeLessThan(5 * Math.sqrt(0.5 / 9_999));
    });
  });

  it('of a place at the mean is 0 with p 1', () => {
    const found = localMoran([0, 2, 1, 0, 2], buildWeights(ringWith(5, []), 'row'), {
      permutations: 99,
      random: new Random(1),
    });
    expect([found.index[2], found.p[2]]).toEqual([0, 1]);
  });
});

describe('likeness among neighbours without an answer', () => {
  const permuted = { permutations: 9, random: new Random(1) };
  const ring = buildWeights(ringWith(5, []), 'row');
  const alone = buildWeights([[1], [0, 2], [1, 3], [2], []], 'row');

  it('names constant values', () => {
    const constant = expect.objectContaining({ code: 'constant' });
    expect(() => moran([0.1, 0.1, 0.1, 0.1, 0.1], ring)).toThrow(constant);
    expect(() => moranPermutation([3, 3, 3, 3, 3], ring, permuted)).toThrow(constant);
    expect(() => localMoran([3, 3, 3, 3, 3], ring, permuted)).toThrow(constant);
  });

  it('names isolated places, too few places, and arguments that do not fit', () => {
    expect(() => localMoran([1, 2, 3, 4, 5], alone, permuted)).toThrow(
      expect.objectContaining({ code: 'isolated' }),
    );
    const pair = buildWeights([[1], [0], []], 'row');
    expect(() => moran([1, 2, 3], pair)).toThrow(expect.objectContaining({ code: 'too few' }));
    expect(() => moranPermutation([1, 2], buildWeights([[], []], 'row'), permuted)).toThrow(
      /No place has a neighbour/,
    );
    expect(() => moran([1, 2], ring)).toThrow(/lengths 2 and 5 differ/);
    expect(() => moran([1, 2, Number.NaN, 4, 5], ring)).toThrow(/Value 2 is NaN/);
    expect(() => localMoran([1, 2, 3, 4, 5], ring, { ...permuted, permutations: 0 })).toThrow(
      /Got 0 permutations/,
    );
  });

  it('names neighbours that cannot be', () => {
    for (const lists of [[[1], [2]], [[0]], [[1, 1], [0]], [[0.5], [0]]]) {
      expect(() => buildWeights(lists, 'row')).toThrow(expect.objectContaining({ code: 'bad argument' }));
    }
  });
});

function doubleSum(values: readonly number[], lists: readonly number[][], style: WeightStyle): number {
  const mean = values.reduce((a, b) => a + b) / values.length;
  let s0 = 0;
  let products = 0;
  for (let i = 0; i < values.length; i += 1) {
    for (let j = 0; j < values.length; j += 1) {
      if (!lists[i]!.includes(j)) continue;
      const w = style === 'row' ? 1 / lists[i]!.length : 1;
      s0 += w;
      products += w * (values[i]! - mean) * (values[j]! - mean);
    }
  }
  const squares = values.reduce((s, v) => s + (v - mean) ** 2, 0);
  return (values.length / s0) * (products / squares);
}

function orders<T>(items: T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) => orders(items.filter((_, j) => j !== i)).map((rest) => [item, ...rest]));
}

function subsets<T>([first, ...rest]: T[], size: number): T[][] {
  if (size === 0) return [[]];
  if (first === undefined) return [];
  return [...subsets(rest, size - 1).map((subset) => [first, ...subset]), ...subsets(rest, size)];
}
