import { describe, expect, it } from 'vitest';
import { getisOrd } from '@/lib/stats/getis-ord';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import expected from '../../fixtures/stats/getis-ord-expected.json';
import carolina from '../../fixtures/stats/north-carolina.json';
import { lattice } from '../../lib/stats/invented-map';

// Source of all values: R 4.2.2; z by spdep 1.2-7, p by 49,999 draws without replacement (see fixture).
const DRAWS = 49_999;
const maps = [
  { name: 'NC rates', x: carolina.rate1974, nb: carolina.neighbours, want: expected.northCarolina },
  { name: 'remote-sensing grid', x: expected.grid.values, nb: lattice(16), want: expected.grid },
];

describe.each(maps)('Getis–Ord: $name', ({ x, nb, want }) => {
  const weights = buildWeights(nb, 'row');
  const found = getisOrd(x, weights, { statistic: 'G', permutations: DRAWS, random: new Random(202) });

  it('has the reference z of G and G*, with either style of weights', () => {
    for (const style of ['row', 'binary'] as const) {
      const run = { permutations: 1, random: new Random(1) };
      const g = getisOrd(x, buildWeights(nb, style), { ...run, statistic: 'G' });
      const star = getisOrd(x, buildWeights(nb, style), { ...run, statistic: 'G*' });
      for (let i = 0; i < x.length; i += 1) {
        expect(g.z[i]).toBeCloseTo(want.gz[i]!, 9);
        expect(star.z[i]).toBeCloseTo(want.starZ[i]!, 9);
      }
    }
  });

  it('has the reference p of G, drawn without replacement, within Monte Carlo error', () => {
    for (let i = 0; i < x.length; i += 1) {
      expect(Math.abs(found.pGreater[i]! - want.pGreater[i]!)).toBeLessThan(5 * error(want.pGreater[i]!));
      expect(Math.abs(found.p[i]! - want.p[i]!)).toBeLessThan(10 * error(want.p[i]! / 2));
    }
  });
});

describe('Getis–Ord by distance: cell 119 of the remote-sensing grid', () => {
  it.each(expected.grid.bands)(
    'has the reference z with all cells within $metres m',
    ({ metres, g, star }) => {
      const place = (i: number) => [(i % 16) * 30, Math.floor(i / 16) * 30] as const;
      const nb = expected.grid.values.map((_, i) =>
        [...expected.grid.values.keys()].filter((j) => {
          const [[x1, y1], [x2, y2]] = [place(i), place(j)];
          return j !== i && Math.hypot(x1 - x2, y1 - y2) <= metres;
        }),
      );
      const run = { permutations: 1, random: new Random(1) };
      const z = (statistic: 'G' | 'G*') =>
        getisOrd(expected.grid.values, buildWeights(nb, 'binary'), { ...run, statistic }).z[
          expected.grid.cell
        ];
      expect(z('G')).toBeCloseTo(g, 9);
      expect(z('G*')).toBeCloseTo(star, 9);
    },
  );
});

/** Standard errors of both Monte Carlo estimates of p, added; a p near 0 or 1 keeps the width of one draw in ten thousand. */
function error(p: number): number {
  const q = Math.min(Math.max(p, 1e-4), 1 - 1e-4);
  return 2 * Math.sqrt((q * (1 - q)) / DRAWS);
}
