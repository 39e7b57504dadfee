import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { constantRisk } from '@/lib/stats/constant-risk';
import { geary, gearyPermutation } from '@/lib/stats/geary';
import { joinCounts, joinCountsPermutation } from '@/lib/stats/join-counts';
import { linkedProduct, linkedProducts, linkedSquares, mutualLinks } from '@/lib/stats/mutual-links';
import { Random } from '@/lib/stats/random';
import { buildWeights, type WeightStyle } from '@/lib/stats/weights';
import { inventedMap, lattice, relabel, ringWith, subsets } from './invented-map';

const run = (permutations: number, seed = 1) => ({ permutations, random: new Random(seed) });
const styles = fc.constantFrom<WeightStyle>('row', 'binary');

describe('the links of a map', () => {
  it('sum products and squares as the full matrix of weights does, also where neighbourhood is one-sided', () => {
    fc.assert(
      fc.property(inventedMap, styles, fc.boolean(), ({ lists, values }, style, oneSided) => {
        const graph = oneSided ? lists.map((list) => list.slice(0, 1)) : lists;
        const weights = buildWeights(graph, style);
        const z = Float64Array.from(values);
        const matrix = graph.flatMap((list, i) => list.map((j) => ({ i, j, w: weights.rowWeight[i]! })));
        const links = mutualLinks(weights);
        const sum = (of: (i: number, j: number) => number) =>
          matrix.reduce((total, { i, j, w }) => total + w * of(i, j), 0);
        expect(linkedProduct(z, links)).toBeCloseTo(
          sum((i, j) => z[i]! * z[j]!),
          6,
        );
        const other = z.map((value, i) => value * i - 3);
        const out = new Float64Array(2);
        linkedProducts(z, other, links, out);
        expect(out[0]).toBeCloseTo(
          sum((i, j) => z[i]! * z[j]!),
          6,
        );
        expect(out[1]).toBeCloseTo(
          sum((i, j) => other[i]! * other[j]!),
          4,
        );
        linkedSquares(z, other, links, out);
        expect(out[0]).toBeCloseTo(
          sum((i, j) => (z[i]! - z[j]!) ** 2),
          6,
        );
        expect(out[1]).toBeCloseTo(
          sum((i, j) => (other[i]! - other[j]!) ** 2),
          4,
        );
        expect(links.total).toBeCloseTo(
          sum(() => 1),
          9,
        );
      }),
    );
  });
});

describe('Geary ratio', () => {
  it('does not change with the names of the places, nor with the unit and the zero of the values', () => {
    fc.assert(
      fc.property(inventedMap, styles, ({ lists, values, order }, style) => {
        const one = geary(values, buildWeights(lists, style));
        const moved = order.map((old) => 7 - 3 * values[old]!);
        const other = geary(moved, buildWeights(relabel(lists, order), style));
        expect(other.ratio).toBeCloseTo(one.ratio, 9);
        expect(other.normality?.z ?? 0).toBeCloseTo(one.normality?.z ?? 0, 7);
        expect(other.randomisation?.z ?? 0).toBeCloseTo(one.randomisation?.z ?? 0, 7);
      }),
    );
  });

  it('has over all orders the mean 1 and the variance of its moments', () => {
    const lists = ringWith(6, [[0, 3]]);
    const weights = buildWeights(lists, 'row');
    const values = [1, 7, 2, 9, 4, 4.5];
    const ratios = orders(values).map((order) => geary(order, weights).ratio);
    const mean = ratios.reduce((a, b) => a + b, 0) / ratios.length;
    const variance = ratios.reduce((sum, ratio) => sum + (ratio - mean) ** 2, 0) / ratios.length;
    expect(mean).toBeCloseTo(1, 10);
    expect(geary(values, weights).randomisation!.variance).toBeCloseTo(variance, 10);
  });

  it('refuses equal values, fewer than four places with a neighbour, and a value that is no number', () => {
    const weights = buildWeights(lattice(3), 'row');
    expect(() => geary(new Array(9).fill(2), weights)).toThrow(expect.objectContaining({ code: 'constant' }));
    expect(() => geary([1, 2, 3], buildWeights([[1], [0], []], 'row'))).toThrow(
      expect.objectContaining({ code: 'too few' }),
    );
    expect(() => gearyPermutation([1, 2, 3], buildWeights([[], [], []], 'row'), run(9))).toThrow(
      expect.objectContaining({ code: 'too few' }),
    );
    expect(() => geary([Number.NaN, 1, 2, 3, 4, 5, 6, 7, 8], weights)).toThrow(
      expect.objectContaining({ code: 'bad argument' }),
    );
  });
});

describe('Join counts', () => {
  it('have over all orders of the classes the means and variances of their moments', () => {
    const lists = ringWith(7, [
      [0, 3],
      [1, 4],
    ]);
    for (const style of ['row', 'binary'] as const) {
      const weights = buildWeights(lists, style);
      const places = [...lists.keys()];
      const maps = subsets(places, 3).flatMap((ones) =>
        subsets(
          places.filter((i) => !ones.includes(i)),
          2,
        ).map((twos) => places.map((i) => (ones.includes(i) ? 1 : twos.includes(i) ? 2 : 0))),
      );
      const counted = maps.map((classes) => joinCounts(classes, 3, weights));
      const kinds = [
        ...[0, 1, 2].map((a) => counted.map((one) => one.same[a]!)),
        ...[0, 1, 2].map((a) => counted.map((one) => one.unlike[a]!)),
        counted.map((one) => one.allUnlike),
      ];
      for (const kind of kinds) {
        const mean = kind.reduce((sum, { joins }) => sum + joins, 0) / kind.length;
        const variance = kind.reduce((sum, { joins }) => sum + (joins - mean) ** 2, 0) / kind.length;
        expect(kind[0]!.expected).toBeCloseTo(mean, 10);
        expect(kind[0]!.moments!.variance).toBeCloseTo(variance, 10);
      }
    }
  });

  it('add up to half the weight of all links, and two classes to the same by either way of counting', () => {
    fc.assert(
      fc.property(inventedMap, styles, fc.nat(2), ({ lists, values }, style, third) => {
        const weights = buildWeights(lists, style);
        const classes = values.map((value, i) =>
          i === 0 ? 0 : i === 1 ? 1 : Math.abs(value) % (2 + (third > 0 ? 1 : 0)),
        );
        const count = third > 0 ? 3 : 2;
        const found = joinCounts(classes, count, weights);
        const shuffled = joinCountsPermutation(classes, count, weights, run(1));
        const likes = found.same.reduce((sum, { joins }) => sum + joins, 0);
        expect(likes + found.allUnlike.joins).toBeCloseTo(mutualLinks(weights).total / 2, 9);
        found.same.forEach(({ joins }, a) => {
          expect(shuffled.same[a]!.joins).toBeCloseTo(joins, 9);
        });
        expect(shuffled.allUnlike.joins).toBeCloseTo(found.allUnlike.joins, 9);
      }),
    );
  });

  it('see halves that are apart, and not a chequered map', () => {
    const weights = buildWeights(lattice(8), 'binary');
    const half = Array.from({ length: 64 }, (_, i) => Number(i < 32));
    const chequered = Array.from({ length: 64 }, (_, i) => ((i % 8) + Math.floor(i / 8)) % 2);
    expect(joinCountsPermutation(half, 2, weights, run(999)).same[1]!.pGreater).toBe(0.001);
    expect(joinCountsPermutation(half, 2, weights, run(999)).allUnlike.pLess).toBe(0.001);
    expect(joinCountsPermutation(chequered, 2, weights, run(999)).same[1]!.pGreater).toBe(1);
  });

  it.each([
    ['constant', [1, 1, 1, 1], 2, ringWith(4, [])],
    ['bad argument', [0, 1, 2, 1], 2, ringWith(4, [])],
    ['bad argument', [0, 1, 0.5, 1], 2, ringWith(4, [])],
    ['bad argument', [0, 1, 0, 1], 1, ringWith(4, [])],
    ['bad argument', [0, 1], 2, ringWith(4, [])],
    ['isolated', [0, 1, 0, 1], 2, [[1], [0], [], []]],
    ['too few', [0, 1, 0], 2, ringWith(3, [])],
  ] as const)('refuse with “%s”', (code, classes, count, lists) => {
    const weights = buildWeights(lists, 'row');
    const refusal = expect.objectContaining({ code });
    expect(() => joinCounts(classes, count, weights)).toThrow(refusal);
    expect(() => joinCountsPermutation(classes, count, weights, run(9))).toThrow(refusal);
  });
});

describe('Monte Carlo under a constant risk', () => {
  const tested = Array.from({ length: 100 }, (_, i) => 1 + ((i * 7) % 12));
  const weights = buildWeights(lattice(10), 'row');

  it('has the p of all ways to deal the cases out again', () => {
    // Four places in a ring, two tested at each, three cases: all 56 choices of three of eight are enumerated.
    const ring = buildWeights(ringWith(4, []), 'row');
    const [cases, two] = [
      [2, 1, 0, 0],
      [2, 2, 2, 2],
    ];
    const mean = 3 / 8;
    const indexOf = (counts: readonly number[]) => {
      const z = counts.map((count, i) => (count - two[i]! * mean) / Math.sqrt(two[i]! * mean * (1 - mean)));
      const squares = z.reduce((sum, each) => sum + each * each, 0);
      return z.reduce((sum, each, i) => sum + (each * (z[(i + 1) % 4]! + z[(i + 3) % 4]!)) / 2, 0) / squares;
    };
    const all = subsets([...Array(8).keys()], 3).map((chosen) =>
      indexOf([0, 1, 2, 3].map((place) => chosen.filter((one) => one >> 1 === place).length)),
    );
    const exact = all.filter((index) => index >= indexOf(cases) - 1e-9).length / all.length;
    const found = constantRisk(cases, two, ring, { replicates: 20_000, random: new Random(5) });
    expect(found.index).toBeCloseTo(indexOf(cases), 12);
    expect(Math.abs(found.pGreater - exact)).toBeLessThan(4 * Math.sqrt((exact * (1 - exact)) / 20_000));
  });

  it('rejects one null map in twenty though testing is uneven, and sees a planted half', () => {
    const random = new Random(11);
    const draw = (shareAt: (i: number) => number) =>
      tested.map((count, i) => {
        let cases = 0;
        for (let k = 0; k < count; k += 1) cases += Number(random.uniform() < shareAt(i));
        return cases;
      });
    const rejected = (shareAt: (i: number) => number, maps: number) =>
      Array.from({ length: maps }, () =>
        constantRisk(draw(shareAt), tested, weights, { replicates: 199, random }),
      ).filter(({ pGreater }) => pGreater <= 0.05).length;
    // Of 300 null maps 15 are expected; 4 to 29 hold 99.9 % of the binomial distribution.
    const none = rejected(() => 0.2, 300);
    expect(none).toBeGreaterThanOrEqual(4);
    expect(none).toBeLessThanOrEqual(29);
    expect(rejected((i) => (i < 50 ? 0.4 : 0.1), 50)).toBeGreaterThan(45);
  });

  it.each([
    ['constant', [0, 0, 0, 0], [1, 2, 3, 4]],
    ['constant', [1, 2, 3, 4], [1, 2, 3, 4]],
    ['bad count', [2, 0, 0, 0], [1, 2, 3, 4]],
    ['bad count', [-1, 0, 0, 0], [1, 2, 3, 4]],
    ['nothing tested', [0, 1, 0, 0], [0, 2, 3, 4]],
    ['bad count', [Number.NaN, 1, 0, 0], [1, 2, 3, 4]],
  ] as const)('refuses with “%s”', (code, cases, counts) => {
    const ring = buildWeights(ringWith(4, []), 'row');
    expect(() => constantRisk(cases, counts, ring, { replicates: 9, random: new Random(1) })).toThrow(
      expect.objectContaining({ code }),
    );
  });
});

function orders<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((item, i) => orders(items.filter((_, k) => k !== i)).map((rest) => [item, ...rest]));
}
