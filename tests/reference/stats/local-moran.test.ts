import { describe, expect, it } from 'vitest';
import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { localMoran } from '@/lib/stats/local-moran';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import columbus from '../../fixtures/stats/columbus.json';
import expected from '../../fixtures/stats/local-moran-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';

// Source of all values: R 4.2.2; index and moments by spdep 1.2-7, p by 99,999 draws without replacement (see fixture).
const DRAWS = 99_999;
const maps = [
  { name: 'Columbus crime', x: columbus.crime, nb: columbus.neighbours, want: expected.columbusRow },
  { name: 'NC rates', x: carolina.rate1974, nb: carolina.neighbours, want: expected.northCarolinaRow },
] as const;

describe.each(maps)('local Moran index: $name', ({ x, nb, want }) => {
  const found = localMoran(x, buildWeights(nb, 'row'), { permutations: DRAWS, random: new Random(101) });

  it('has the reference index, conditional mean and variance', () => {
    for (let i = 0; i < x.length; i += 1) {
      expect(found.index[i]).toBeCloseTo(want.index[i]!, 9);
      expect(found.expected[i]).toBeCloseTo(want.expected[i]!, 9);
      expect(found.variance[i]).toBeCloseTo(want.variance[i]!, 9);
    }
  });

  it('has the standard deviation that the reference draws show', () => {
    want.deviation.forEach((deviation, i) => {
      expect(Math.abs(Math.sqrt(found.variance[i]!) / deviation - 1)).toBeLessThan(0.03);
    });
  });

  it('has the reference signs of a place and its neighbours', () => {
    const sign = (value: number) => (value > 0 ? '+' : '-');
    expect(x.map((_, i) => `${sign(found.z[i]!)} ${sign(found.lag[i]!)}`)).toEqual(want.quadrant);
  });

  it('has the reference p, drawn without replacement, within Monte Carlo error', () => {
    for (let i = 0; i < x.length; i += 1) {
      expect(Math.abs(found.pGreater[i]! - want.pGreater[i]!)).toBeLessThan(5 * error(want.pGreater[i]!));
      expect(Math.abs(found.pLess[i]! - want.pLess[i]!)).toBeLessThan(5 * error(want.pLess[i]!));
      expect(Math.abs(found.p[i]! - want.p[i]!)).toBeLessThan(10 * error(want.p[i]! / 2));
    }
  });

  it('agrees with p.adjust on the adjusted p of the reference', () => {
    benjaminiHochberg(want.normalP).forEach((value, i) => {
      expect(value).toBeCloseTo(want.adjustedNormalP[i]!, 9);
    });
  });
});

/** Standard errors of both Monte Carlo estimates of p, added; a p near 0 or 1 keeps the width of one draw in ten thousand. */
function error(p: number): number {
  const q = Math.min(Math.max(p, 1e-4), 1 - 1e-4);
  return 2 * Math.sqrt((q * (1 - q)) / DRAWS);
}
