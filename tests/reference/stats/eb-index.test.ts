import { describe, expect, it } from 'vitest';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { moran } from '@/lib/stats/moran';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import expected from '../../fixtures/stats/eb-index-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2, spdep 1.2-7 EBImoran.mc on the North Carolina data (see fixtures); tolerance 1e-9,
// and 0.003 for Monte Carlo p.
const { cases1974, births1974, cases1979, births1979, neighbours } = carolina;
const maps = [
  { name: '1974–78, row', cases: cases1974, births: births1974, style: 'row', want: expected.row1974 },
  {
    name: '1979–84, binary',
    cases: cases1979,
    births: births1979,
    style: 'binary',
    want: expected.binary1979,
  },
] as const;

describe.each(maps)('EB-standardised Moran index: $name', ({ cases, births, style, want }) => {
  const weights = buildWeights(neighbours, style);
  const { z, mean, variance, between, replaced } = ebStandardise(cases, births, 'poisson');

  it('has the reference standardised rates', () => {
    expect(mean).toBeCloseTo(want.mean, 12);
    expect(variance).toBeCloseTo(want.variance, 14);
    expect(between).toBeCloseTo(want.between, 14);
    expect(replaced).toBe(want.replaced);
    want.z.forEach((value, i) => {
      expect(z[i]).toBeCloseTo(value, 9);
    });
  });

  it('has the reference index and permutation p, and differs from the index of raw rates', () => {
    const found = moranPermutation(z, weights, { permutations: 9_999, random: new Random(11) });
    expect(found.index).toBeCloseTo(want.index, 9);
    expect(Math.abs(found.pGreater - want.pGreater)).toBeLessThan(
      0.003 + 3 * Math.sqrt(want.pGreater / 9_999),
    );
    const raw = cases.map((count, i) => count / births[i]!);
    expect(moran(raw, weights).index).toBeCloseTo(want.rawIndex, 9);
  });
});
