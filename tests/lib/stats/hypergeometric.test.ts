import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hypergeometricTest } from '@/lib/stats/hypergeometric';

/** Invented counts: a total, how many of it are marked, how many are drawn. */
const draw = fc
  .integer({ min: 1, max: 60 })
  .chain((total) =>
    fc.record({ total: fc.constant(total), marked: fc.nat(total), drawn: fc.nat(total), pick: fc.nat() }),
  )
  .map(({ pick, ...margins }) => {
    const lowest = Math.max(0, margins.drawn + margins.marked - margins.total);
    const highest = Math.min(margins.drawn, margins.marked);
    return { margins, lowest, highest, count: lowest + (pick % (highest - lowest + 1)) };
  });

describe('hypergeometric test', () => {
  it('gives 17 of 70 for three cups of four told right, as published', () => {
    // Fisher 1935, The Design of Experiments, chapter II (from memory): 1 + 16 of 70 choices.
    const { greater, less, twoSided } = hypergeometricTest(3, { total: 8, marked: 4, drawn: 4 });
    expect(greater).toBeCloseTo(17 / 70, 15);
    expect(less).toBeCloseTo(69 / 70, 15);
    expect(twoSided).toBeCloseTo(34 / 70, 15);
  });

  it.each([
    // By exact fractions of binomial coefficients in Python 3; invented counts.
    [30, 39229, 4071, 180, [0.006251022731747, 0.9966439181860348]],
    [2, 39229, 4071, 100, [0.9997831723831229, 0.0013639900752270113]],
    [120, 5000, 700, 500, [1.6259398312949206e-10, 0.9999999999252616]],
    [0, 328, 40, 25, [1.0, 0.03385869702818716]],
    [60, 2000, 300, 120, [5.7087542790830674e-21, 1.0]],
  ] as const)(
    'has the exact tails of %i of %i, %i marked, %i drawn',
    (count, total, marked, drawn, [greater, less]) => {
      const found = hypergeometricTest(count, { total, marked, drawn });
      expect(Math.abs(found.greater / greater - 1)).toBeLessThan(1e-12);
      expect(Math.abs(found.less / less - 1)).toBeLessThan(1e-12);
    },
  );

  it('is the sum over all tables with these margins', () => {
    fc.assert(
      fc.property(draw, ({ margins: { total, marked, drawn }, lowest, highest, count }) => {
        const found = hypergeometricTest(count, { total, marked, drawn });
        const chance = (x: number) =>
          Number(choose(marked, x) * choose(total - marked, drawn - x)) / Number(choose(total, drawn));
        let greater = 0;
        let less = 0;
        for (let x = lowest; x <= highest; x += 1) {
          if (x >= count) greater += chance(x);
          if (x <= count) less += chance(x);
        }
        expect(found.greater).toBeCloseTo(greater, 12);
        expect(found.less).toBeCloseTo(less, 12);
        expect(found.twoSided).toBeCloseTo(Math.min(1, 2 * Math.min(greater, less)), 12);
      }),
    );
  });

  it('does not care which margin is called drawn, and mirrors when the unmarked are counted', () => {
    fc.assert(
      fc.property(draw, ({ margins: { total, marked, drawn }, count }) => {
        const found = hypergeometricTest(count, { total, marked, drawn });
        const swapped = hypergeometricTest(count, { total, marked: drawn, drawn: marked });
        const mirrored = hypergeometricTest(drawn - count, { total, marked: total - marked, drawn });
        expect(swapped.greater).toBeCloseTo(found.greater, 12);
        expect(mirrored.less).toBeCloseTo(found.greater, 12);
        expect(mirrored.greater).toBeCloseTo(found.less, 12);
      }),
    );
  });

  it('gives p in (0, 1]; mid-p takes half of the count itself from both tails, so that they add to 1', () => {
    fc.assert(
      fc.property(draw, ({ margins, count }) => {
        const found = hypergeometricTest(count, margins);
        for (const p of Object.values(found)) expect(p > 0 && p <= 1).toBe(true);
        const middle = hypergeometricTest(count, margins, { midP: true });
        const own = found.greater + found.less - 1;
        expect(middle.greater + middle.less).toBeCloseTo(1, 12);
        expect(found.greater - middle.greater).toBeCloseTo(own / 2, 12);
      }),
    );
  });

  it('keeps a chance that no double can hold above 0, and the other tail at 1', () => {
    const found = hypergeometricTest(900, { total: 39_229, marked: 4_071, drawn: 1_000 });
    expect(found.greater).toBe(Number.MIN_VALUE);
    expect(found.less).toBe(1);
  });

  it('finds nothing surprising where only one count is possible', () => {
    for (const marked of [0, 9]) {
      expect(hypergeometricTest(marked && 4, { total: 9, marked, drawn: 4 })).toEqual({
        greater: 1,
        less: 1,
        twoSided: 1,
      });
    }
  });

  it('names counts that cannot be, and a total of nothing', () => {
    const bad = expect.objectContaining({ code: 'bad count' });
    for (const count of [-1, 5, 1.5, Number.NaN]) {
      expect(() => hypergeometricTest(count, { total: 9, marked: 4, drawn: 5 })).toThrow(bad);
    }
    expect(() => hypergeometricTest(1, { total: 9, marked: 8, drawn: 5 })).toThrow(bad);
    expect(() => hypergeometricTest(1, { total: 9, marked: 10, drawn: 5 })).toThrow(bad);
    expect(() => hypergeometricTest(0, { total: 0, marked: 0, drawn: 0 })).toThrow(
      expect.objectContaining({ code: 'nothing tested' }),
    );
  });
});

function choose(n: number, k: number): bigint {
  if (k < 0 || k > n) return 0n;
  let result = 1n;
  for (let i = 1; i <= k; i += 1) result = (result * BigInt(n - k + i)) / BigInt(i);
  return result;
}
