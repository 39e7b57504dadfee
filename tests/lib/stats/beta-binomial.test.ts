import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { logGamma } from '@/lib/stats/beta';
import { betaBinomial } from '@/lib/stats/beta-binomial';
import { inventedMap } from './invented-map';

// Invented counts; values of scipy 1.17.1: stats.betabinom.logpmf, maximised over mean and correlation by Nelder–Mead
// (tolerance 1e-12), standard errors from its second differences (step 1e-5).
const few = {
  cases: [0, 0, 1, 2, 1, 3, 0, 6, 2, 11, 5, 0, 1, 1, 0],
  tested: [1, 2, 2, 3, 5, 8, 8, 10, 12, 20, 25, 4, 6, 1, 3],
};
const many = { cases: [3, 9, 1, 22, 4, 0, 7, 2, 10, 3], tested: [30, 25, 28, 40, 12, 9, 22, 31, 18, 27] };

describe('the beta-binomial by maximum likelihood', () => {
  it.each([
    [few, 0.2865715364438472, 0.11389561212988725, 0.06202526596947439, 0.08976273112397298],
    [many, 0.24358371764004877, 0.16661333210353613, 0.061044338104484355, 0.07745185468288542],
  ])('has the values of an outside likelihood', ({ cases, tested }, mean, correlation, meanError, spread) => {
    const found = betaBinomial(cases, tested);
    expect(found.mean).toBeCloseTo(mean, 6);
    expect(found.correlation).toBeCloseTo(correlation, 6);
    expect(found.meanError).toBeCloseTo(meanError, 5);
    expect(found.correlationError).toBeCloseTo(spread, 5);
  });

  it('has the p of half a chi-square with one degree of freedom', () => {
    // scipy 1.17.1: likelihood ratio against stats.binom 4.326458100322327; chi2.sf(·, 1) / 2.
    expect(betaBinomial(few.cases, few.tested).p).toBeCloseTo(0.01876212, 7);
  });

  it('is not beaten by any other mean and correlation, by the textbook form of the likelihood', () => {
    fc.assert(
      fc.property(
        inventedMap,
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0.001, max: 0.95, noNaN: true }),
        ({ counts }, mean, correlation) => {
          const cases = counts.map(([, resistant]) => resistant);
          const tested = counts.map(([all]) => all);
          const found = betaBinomial(cases, tested);
          expect(textbook(cases, tested, mean, correlation)).toBeLessThanOrEqual(found.logLikelihood + 1e-6);
          expect(found.p).toBeGreaterThanOrEqual(0);
          expect(found.p).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it('draws each share towards the mean, and keeps it between the two', () => {
    fc.assert(
      fc.property(inventedMap, ({ counts }) => {
        const cases = counts.map(([, resistant]) => resistant);
        const tested = counts.map(([all]) => all);
        const { estimate, mean } = betaBinomial(cases, tested);
        estimate.forEach((share, i) => {
          const own = cases[i]! / tested[i]!;
          expect(share).toBeGreaterThanOrEqual(Math.min(own, mean) - 1e-9);
          expect(share).toBeLessThanOrEqual(Math.max(own, mean) + 1e-9);
        });
      }),
    );
  });

  it('has no correlation where places are more alike than chance, and where one was tested at each', () => {
    for (const [cases, tested] of [
      [
        [3, 3, 3, 3],
        [10, 10, 10, 10],
      ],
      [
        [1, 0, 1, 0, 0],
        [1, 1, 1, 1, 1],
      ],
    ] as const) {
      const { correlation, correlationError, p, mean } = betaBinomial(cases, tested);
      expect({ correlation, correlationError, p }).toEqual({ correlation: 0, correlationError: null, p: 1 });
      expect(mean).toBeCloseTo(
        cases.reduce<number>((a, b) => a + b, 0) / tested.reduce<number>((a, b) => a + b, 0),
        9,
      );
    }
  });

  it('is defined where none and where all are resistant, and where each place is all or nothing', () => {
    expect(betaBinomial([0, 0], [3, 4])).toMatchObject({ mean: 0, correlation: 0, p: 1 });
    expect(betaBinomial([3, 4], [3, 4])).toMatchObject({ mean: 1, correlation: 0, p: 1 });
    expect(betaBinomial([10, 0, 10, 0], [10, 10, 10, 10]).correlation).toBeGreaterThan(0.999);
  });

  it.each([
    ['too few', [], []],
    ['nothing tested', [0], [0]],
    ['bad count', [2], [1]],
    ['bad count', [-1], [1]],
    ['bad count', [0.5], [1]],
    ['bad count', [Number.NaN], [1]],
    ['bad argument', [1, 1], [1]],
  ] as const)('refuses with “%s”: %j of %j', (code, cases, tested) => {
    expect(() => betaBinomial(cases, tested)).toThrow(expect.objectContaining({ code }));
  });
});

/** log Σ B(r + α, n − r + β) / B(α, β), without the binomial coefficients. */
function textbook(cases: number[], tested: number[], mean: number, correlation: number): number {
  const alpha = mean * (1 / correlation - 1);
  const beta = (1 - mean) * (1 / correlation - 1);
  const logBeta = (a: number, b: number) => logGamma(a) + logGamma(b) - logGamma(a + b);
  return cases.reduce(
    (sum, r, i) => sum + logBeta(r + alpha, tested[i]! - r + beta) - logBeta(alpha, beta),
    0,
  );
}
