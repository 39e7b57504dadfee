import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { betaQuantile, incompleteBeta } from '@/lib/stats/beta';
import { clopperPearson, upperLimit } from '@/lib/stats/clopper-pearson';
import { normalCdf, normalQuantile } from '@/lib/stats/normal';
import { wilsonInterval } from '@/lib/stats/wilson-interval';

const counts = fc
  .integer({ min: 1, max: 400 })
  .chain((tested) => fc.record({ tested: fc.constant(tested), cases: fc.integer({ min: 0, max: tested }) }));

describe('Wilson interval', () => {
  it('is the score test inverted: at each limit the test is exactly at its level', () => {
    fc.assert(
      fc.property(counts, ({ cases, tested }) => {
        const { low, high } = wilsonInterval(cases, tested);
        const score = (p: number) => (cases / tested - p) / Math.sqrt((p * (1 - p)) / tested);
        if (low > 0) expect(score(low)).toBeCloseTo(normalQuantile(0.975), 8);
        if (high < 1) expect(score(high)).toBeCloseTo(-normalQuantile(0.975), 8);
      }),
    );
  });

  it('holds the share, stays inside 0 … 1 and mirrors when cases and others change places', () => {
    fc.assert(
      fc.property(counts, ({ cases, tested }) => {
        const { low, high } = wilsonInterval(cases, tested);
        const mirrored = wilsonInterval(tested - cases, tested);
        expect(0 <= low && low <= cases / tested && cases / tested <= high && high <= 1).toBe(true);
        expect(mirrored.low).toBeCloseTo(1 - high, 12);
      }),
    );
  });
});

describe('Clopper–Pearson interval', () => {
  it('is the exact binomial test inverted', () => {
    fc.assert(
      fc.property(
        counts.filter(({ tested }) => tested <= 60),
        ({ cases, tested }) => {
          const { low, high } = clopperPearson(cases, tested);
          if (cases > 0) expect(1 - binomialCdf(cases - 1, tested, low)).toBeCloseTo(0.025, 9);
          if (cases < tested) expect(binomialCdf(cases, tested, high)).toBeCloseTo(0.025, 9);
        },
      ),
    );
  });

  it('leaves up to 39 % when none was found in 6 screened', () => {
    // Source: 1 − 0.05^(1/6), by hand.
    expect(upperLimit(0, 6)).toBeCloseTo(0.393, 4);
    expect(upperLimit(6, 6)).toBe(1);
  });

  it('has the one-sided limit of all but none from the same formula as the others', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), (n) => {
        expect(upperLimit(0, n)).toBeCloseTo(betaQuantile(0.95, 1, n), 12);
      }),
    );
  });
});

describe('intervals without an answer', () => {
  it.each([
    [0, 0, 'nothing tested'],
    [3, 2, 'bad count'],
    [-1, 2, 'bad count'],
    [Number.NaN, 2, 'bad count'],
    [1, Number.POSITIVE_INFINITY, 'bad count'],
  ])('%d of %d: %s', (cases, tested, code) => {
    for (const interval of [wilsonInterval, clopperPearson, upperLimit]) {
      expect(() => interval(cases, tested)).toThrow(expect.objectContaining({ code }));
    }
  });
});

describe('distribution functions', () => {
  it('and their quantiles undo each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-9, max: 1 - 1e-9, noNaN: true }), (p) => {
        expect(normalCdf(normalQuantile(p))).toBeCloseTo(p, 13);
        expect(incompleteBeta(3, 4.5, betaQuantile(p, 3, 4.5))).toBeCloseTo(p, 12);
      }),
    );
  });

  it('refuse what is no probability', () => {
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => normalQuantile(p)).toThrow(/between 0 and 1/);
    expect(() => betaQuantile(1.1, 1, 1)).toThrow(/0 … 1/);
    expect(() => incompleteBeta(0, 1, 0.5)).toThrow(/expected a, b > 0/);
  });
});

function binomialCdf(cases: number, tested: number, share: number): number {
  let term = (1 - share) ** tested;
  let sum = term;
  for (let k = 1; k <= cases; k += 1) {
    term *= ((tested - k + 1) / k) * (share / (1 - share));
    sum += term;
  }
  return sum;
}
