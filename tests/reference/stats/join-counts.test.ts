import { describe, expect, it } from 'vitest';
import { joinCounts, joinCountsPermutation } from '@/lib/stats/join-counts';
import { Random } from '@/lib/stats/random';
import { buildWeights, type WeightStyle } from '@/lib/stats/weights';
import columbus from '../../fixtures/stats/columbus.json';
import expected from '../../fixtures/stats/join-counts-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2, spdep 1.2-7, on the data sets named in the fixture.
const { source: _, ...maps } = expected;

describe.each(Object.entries(maps))('Join counts: %s', (_name, want) => {
  const classes = [...want.classes].map(Number);
  const lists = want.graph === 'columbus' ? columbus.neighbours : carolina.neighbours;
  const weights = buildWeights(lists, want.style as WeightStyle);

  it('have the reference counts and moments', () => {
    const found = joinCounts(classes, want.levels.length, weights);
    const flat = ({ joins, expected: mean, moments }: (typeof found)['allUnlike']) => [
      joins,
      mean,
      moments!.variance,
      moments!.z,
    ];
    found.same.forEach((one, a) => {
      expectClose(flat(one), want.same[a]!);
    });
    for (const [a, b, ...numbers] of want.unlike) {
      const classOf = [Math.max(a!, b!), Math.min(a!, b!)];
      const one = found.unlike.find(({ classes: pair }) => `${pair}` === `${classOf}`)!;
      expectClose(flat(one), numbers);
    }
    expect(found.unlike).toHaveLength(want.unlike.length);
    expectClose(flat(found.allUnlike), want.allUnlike);
  });

  it('have random orders with the mean and the variance that the moments foretell', () => {
    const found = joinCountsPermutation(classes, want.levels.length, weights, {
      permutations: 9_999,
      random: new Random(3),
    });
    [...found.same, found.allUnlike].forEach((one, a) => {
      const [joins, mean, variance] = (want.same[a] ?? want.allUnlike) as [number, number, number];
      const deviation = Math.sqrt(variance);
      expect(one.joins).toBeCloseTo(joins, 9);
      expect(Math.abs(one.mean - mean)).toBeLessThan(0.04 * deviation);
      expect(Math.abs(one.deviation / deviation - 1)).toBeLessThan(0.03);
    });
  });
});

function expectClose(found: readonly number[], want: readonly number[]): void {
  found.forEach((value, k) => {
    expect(value).toBeCloseTo(want[k]!, 9);
  });
}
