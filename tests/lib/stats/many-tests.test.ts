import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { holm } from '@/lib/stats/holm';
import { permutationsNeeded, resolution } from '@/lib/stats/resolution';

const ps = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 40 });

describe('Benjamini–Hochberg', () => {
  it('rejects the k smallest p, k the largest with p(k) ≤ k q / m', () => {
    fc.assert(
      fc.property(ps, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (p, q) => {
        const sorted = [...p].sort((a, b) => a - b);
        const k = sorted.findLastIndex((value, i) => value * p.length <= (i + 1) * q) + 1;
        const near = sorted.some((value, i) => Math.abs(value * p.length - (i + 1) * q) < 1e-12);
        fc.pre(!near);
        expect(benjaminiHochberg(p).filter((value) => value <= q)).toHaveLength(k);
      }),
    );
  });

  it('never makes p smaller, keeps their order and stays at most 1', () => {
    fc.assert(
      fc.property(ps, (p) => {
        const adjusted = benjaminiHochberg(p);
        const order = p.map((_, i) => i).sort((a, b) => p[a]! - p[b]!);
        order.forEach((i, at) => {
          expect(adjusted[i]).toBeGreaterThanOrEqual(p[i]! * (1 - 1e-12));
          expect(adjusted[i]).toBeLessThanOrEqual(1);
          if (at > 0) expect(adjusted[i]).toBeGreaterThanOrEqual(adjusted[order[at - 1]!]!);
        });
      }),
    );
  });

  it('of no p is no p, and refuses what is none', () => {
    expect(benjaminiHochberg([])).toHaveLength(0);
    expect(() => benjaminiHochberg([0.5, Number.NaN])).toThrow(/p 1 is NaN/);
  });
});

describe('Holm', () => {
  it('adjusts as by hand: 0.01, 0.04, 0.03, 0.005 of four', () => {
    // By hand: 4 · 0.005, 3 · 0.01, 2 · 0.03, then 0.04 raised to the one before.
    const adjusted = holm([0.01, 0.04, 0.03, 0.005]);
    expect([...adjusted].map((p) => Number(p.toFixed(12)))).toEqual([0.03, 0.06, 0.06, 0.02]);
  });

  it('lies between p and Bonferroni, and rejects the smallest p exactly where Bonferroni does', () => {
    fc.assert(
      fc.property(ps, (p) => {
        const adjusted = holm(p);
        adjusted.forEach((value, i) => {
          expect(value).toBeGreaterThanOrEqual(p[i]!);
          expect(value).toBeLessThanOrEqual(Math.min(1, p.length * p[i]!));
        });
        expect(Math.min(...adjusted)).toBe(Math.min(1, p.length * Math.min(...p)));
      }),
    );
    expect(holm([])).toHaveLength(0);
  });
});

describe('resolution of a permutation test', () => {
  it('warns where a place cannot be flagged alone, with a number of permutations that would do', () => {
    // By hand: 2 / 1,000 = 0.002; 0.002 · 3,106 / 0.05 = 124.24 places; 2 · 3,106 / 0.05 = 124,240 orders.
    const coarse = resolution(999, 3_106, 0.05);
    expect(coarse).toMatchObject({ smallestP: 0.002, placesNeeded: 125 });
    expect(coarse.warning).toContain('use at least 124239');
  });

  it('is fine enough from exactly the number it asks for', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 4_000 }), (tests) => {
        const enough = permutationsNeeded(tests, 0.05);
        expect(resolution(enough, tests, 0.05)).toMatchObject({ placesNeeded: 1, warning: null });
        expect(resolution(enough - 1, tests, 0.05).placesNeeded).toBe(2);
      }),
    );
  });
});
