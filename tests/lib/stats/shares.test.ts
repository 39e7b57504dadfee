import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { empiricalBayes } from '@/lib/stats/empirical-bayes';
import { localEmpiricalBayes } from '@/lib/stats/local-empirical-bayes';

const place = fc
  .integer({ min: 1, max: 60 })
  .chain((tested) => fc.tuple(fc.integer({ min: 0, max: tested }), fc.constant(tested)));
const table = fc.array(place, { minLength: 1, maxLength: 30 });
const columns = (rows: [number, number][]) => [rows.map(([x]) => x), rows.map(([, n]) => n)] as const;

describe('empirical-Bayes shares', () => {
  it('lie between the raw share and the mean', () => {
    fc.assert(
      fc.property(table, fc.constantFrom('poisson' as const, 'binomial' as const), (rows, family) => {
        const [cases, tested] = columns(rows);
        const { estimate, mean } = empiricalBayes(cases, tested, family);
        estimate.forEach((value, i) => {
          const raw = cases[i]! / tested[i]!;
          expect(value).toBeGreaterThanOrEqual(Math.min(raw, mean) - 1e-12);
          expect(value).toBeLessThanOrEqual(Math.max(raw, mean) + 1e-12);
        });
      }),
    );
  });

  it('are drawn more towards the mean where fewer were tested', () => {
    const { weight } = empiricalBayes([0, 9, 1, 30], [2, 10, 20, 40], 'binomial');
    expect([...weight]).toEqual([...weight].sort((a, b) => a - b));
    expect(weight[0]).toBeGreaterThan(0);
  });

  it.each([
    { name: 'none was found', cases: [0, 0, 0], tested: [3, 5, 9], mean: 0 },
    { name: 'all were found', cases: [3, 5, 9], tested: [3, 5, 9], mean: 1 },
    { name: 'one was tested everywhere', cases: [1, 0, 1, 0], tested: [1, 1, 1, 1], mean: 0.5 },
    { name: 'counting alone explains the scatter', cases: [2, 3, 2], tested: [10, 10, 10], mean: 7 / 30 },
  ])('are the mean everywhere when $name', ({ cases, tested, mean }) => {
    for (const value of empiricalBayes(cases, tested, 'binomial').estimate)
      expect(value).toBeCloseTo(mean, 12);
  });

  it('local: follow the textbook formula worked by hand on three places in a row', () => {
    // By hand: place 1 of the chain 0 – 1 – 2, cases 1, 4, 1 of 10 each: m = 0.2, s² = (0.01 + 0.04 + 0.01)/3 = 0.02,
    // a = 0.02 − 0.2/10 = 0, so the mean; with cases 0, 6, 0: m = 0.2, s² = 0.08, a = 0.06, weight 0.06/(0.06 + 0.02).
    const chain = [[1], [0, 2], [1]];
    expect(localEmpiricalBayes([1, 4, 1], [10, 10, 10], chain).estimate[1]).toBeCloseTo(0.2, 12);
    expect(localEmpiricalBayes([0, 6, 0], [10, 10, 10], chain).estimate[1]).toBeCloseTo(0.2 + 0.75 * 0.4, 12);
  });

  it('local: a place without neighbours keeps its own share', () => {
    expect(localEmpiricalBayes([1, 3], [4, 4], [[], []]).estimate).toEqual(Float64Array.of(0.25, 0.75));
  });
});

describe('standardised shares', () => {
  it('are finite for any counts that differ', () => {
    fc.assert(
      fc.property(table, fc.constantFrom('poisson' as const, 'binomial' as const), (rows, family) => {
        const [cases, tested] = columns(rows);
        const shares = cases.map((x, i) => x / tested[i]!);
        fc.pre(new Set(shares).size > 1);
        return ebStandardise(cases, tested, family).z.every(Number.isFinite);
      }),
    );
  });

  it('name the reason where every place has the same share', () => {
    for (const cases of [
      [0, 0],
      [2, 4],
      [1, 2],
    ]) {
      expect(() => ebStandardise(cases, [2, 4], 'binomial')).toThrow(
        expect.objectContaining({ code: 'constant' }),
      );
    }
  });

  it('in the binomial form never let one place drown the others, as the Poisson form does at common shares', () => {
    // Invented: shares near 0.6 with less scatter than Poisson counting has; at 13 tested the Poisson variance is
    // nearly zero.
    const cases = [6, 6, 8, 7, 5, 9];
    const tested = [10, 11, 13, 11, 8, 15];
    const widest = (z: Float64Array) => Math.max(...z.map(Math.abs));
    expect(widest(ebStandardise(cases, tested, 'binomial').z)).toBeLessThan(3);
    expect(ebStandardise(cases, tested, 'poisson').replaced).toBeGreaterThan(0);
  });

  it.each([
    { cases: [], tested: [], code: 'too few' },
    { cases: [1], tested: [0], code: 'bad count' },
    { cases: [0], tested: [0], code: 'nothing tested' },
    { cases: [1], tested: [1, 2], code: 'bad argument' },
  ])('refuse $cases of $tested: $code', ({ cases, tested, code }) => {
    expect(() => ebStandardise(cases, tested, 'binomial')).toThrow(expect.objectContaining({ code }));
    expect(() => empiricalBayes(cases, tested, 'poisson')).toThrow(expect.objectContaining({ code }));
  });
});
