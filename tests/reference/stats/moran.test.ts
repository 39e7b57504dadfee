import { describe, expect, it } from 'vitest';
import { moran } from '@/lib/stats/moran';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { weightMoments } from '@/lib/stats/weight-moments';
import { buildWeights } from '@/lib/stats/weights';
import columbus from '../../fixtures/stats/columbus.json';
import expected from '../../fixtures/stats/moran-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2, spdep 1.2-7, on the data sets named in the fixtures.
const { columbusRow, northCarolinaRow, northCarolinaBinary, northCarolina30MilesRow } = expected;
const cases = [
  { name: 'Columbus', x: columbus.crime, nb: columbus.neighbours, style: 'row', want: columbusRow },
  { name: 'NC, row', x: carolina.rate1974, nb: carolina.neighbours, style: 'row', want: northCarolinaRow },
  {
    name: 'NC, binary',
    x: carolina.rate1974,
    nb: carolina.neighbours,
    style: 'binary',
    want: northCarolinaBinary,
  },
  {
    name: 'NC, two places without neighbours dropped from n and kept in the variance',
    x: carolina.rate1974,
    nb: carolina.neighbours30Miles,
    style: 'row',
    want: northCarolina30MilesRow,
  },
] as const;

describe.each(cases)('Moran index: $name', ({ x, nb, style, want }) => {
  const weights = buildWeights(nb, style);

  it('has the reference weights, index and moments', () => {
    const { s0, s1, s2 } = weightMoments(weights);
    expect(
      [s0, s1, s2].map((s, i) => Math.abs(s / [want.s0, want.s1, want.s2][i]! - 1) < 1e-12),
    ).not.toContain(false);
    const found = moran(x, weights);
    expect(found.places).toBe(want.places);
    expect(found.index).toBeCloseTo(want.index, 9);
    expect(found.expected).toBeCloseTo(want.expected, 9);
    expect(found.kurtosis).toBeCloseTo(want.kurtosis, 9);
    for (const assumption of ['randomisation', 'normality'] as const) {
      expect(found[assumption]!.variance).toBeCloseTo(want[assumption].variance, 9);
      expect(found[assumption]!.z).toBeCloseTo(want[assumption].z, 9);
      expect(found[assumption]!.pGreater).toBeCloseTo(want[assumption].pGreater, 9);
    }
  });

  it('has the reference permutation p, mean and deviation within Monte Carlo error', () => {
    const found = moranPermutation(x, weights, { permutations: 9_999, random: new Random(42) });
    expect(found.index).toBeCloseTo(want.index, 9);
    expect(Math.abs(found.pGreater - want.permutation.pGreater)).toBeLessThan(0.003);
    expect(Math.abs(found.mean - want.permutation.mean)).toBeLessThan(0.06 * want.permutation.deviation);
    expect(Math.abs(found.deviation / want.permutation.deviation - 1)).toBeLessThan(0.03);
  });
});
