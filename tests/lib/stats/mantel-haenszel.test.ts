import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mantelHaenszel, type StratifiedCounts } from '@/lib/stats/mantel-haenszel';

const group = fc
  .integer({ min: 0, max: 30 })
  .chain((tested) => fc.tuple(fc.integer({ min: 0, max: tested }), fc.constant(tested)));
const strata = fc.array(fc.tuple(group, group), { minLength: 1, maxLength: 12 });

describe('Mantel–Haenszel', () => {
  it('is the plain odds ratio, with its usual interval, in a single stratum', () => {
    // By hand: 8 of 20 against 3 of 15: (8 · 12) / (12 · 3); variance of the logarithm 1/8 + 1/12 + 1/3 + 1/12.
    const { oddsRatio, low, high } = mantelHaenszel(
      counts([
        [
          [8, 20],
          [3, 15],
        ],
      ]),
    );
    expect(oddsRatio).toBeCloseTo(96 / 36, 12);
    expect(Math.log(high! / low!) / 2).toBeCloseTo(
      1.959963984540054 * Math.sqrt(1 / 8 + 1 / 12 + 1 / 3 + 1 / 12),
      10,
    );
  });

  it('turns over when group and reference change places', () => {
    fc.assert(
      fc.property(strata, (rows) => {
        const one = mantelHaenszel(counts(rows));
        const other = mantelHaenszel(counts(rows.map(([a, b]) => [b, a])));
        expect(other.p === null).toBe(one.p === null);
        if (one.p !== null) expect(other.p).toBeCloseTo(one.p, 9);
        if (one.oddsRatio === null) return;
        expect(Math.log(other.oddsRatio!)).toBeCloseTo(-Math.log(one.oddsRatio), 9);
        expect(Math.log(other.high!)).toBeCloseTo(-Math.log(one.low!), 9);
      }),
    );
  });

  it('is the same in any order of strata, and with a stratum that lacks one of the two', () => {
    fc.assert(
      fc.property(strata, group, (rows, other) => {
        const one = mantelHaenszel(counts(rows));
        const more = mantelHaenszel(counts([[other, [0, 0]], ...rows.toReversed()]));
        expect(more.reason).toBe(one.reason);
        if (one.oddsRatio !== null) expect(more.oddsRatio).toBeCloseTo(one.oddsRatio, 9);
      }),
    );
  });

  it('never answers with NaN: either numbers or a reason', () => {
    fc.assert(
      fc.property(strata, (rows) => {
        const { oddsRatio, low, high, p, reason } = mantelHaenszel(counts(rows));
        if (reason === null) expect([oddsRatio, low, high, p].every(Number.isFinite)).toBe(true);
        else expect([oddsRatio, low, high]).toEqual([null, null, null]);
        if (p !== null) expect(p > 0 && p <= 1).toBe(true);
      }),
    );
  });

  it.each([
    [
      'no stratum with both',
      [
        [
          [1, 2],
          [0, 0],
        ],
      ],
    ],
    [
      'no cases',
      [
        [
          [0, 2],
          [0, 3],
        ],
      ],
    ],
    [
      'all cases',
      [
        [
          [2, 2],
          [3, 3],
        ],
      ],
    ],
    [
      'infinite',
      [
        [
          [2, 2],
          [0, 3],
        ],
      ],
    ],
    [
      'zero',
      [
        [
          [0, 2],
          [3, 3],
        ],
      ],
    ],
    [
      'no discordance',
      [
        [
          [2, 2],
          [3, 3],
        ],
        [
          [0, 2],
          [0, 3],
        ],
      ],
    ],
  ] as [string, Row[]][])('has no odds ratio and says: %s', (reason, rows) => {
    expect(mantelHaenszel(counts(rows))).toMatchObject({ oddsRatio: null, reason });
  });

  it('refuses impossible counts', () => {
    expect(() =>
      mantelHaenszel(
        counts([
          [
            [3, 2],
            [0, 1],
          ],
        ]),
      ),
    ).toThrow(/Stratum 0: got 3 of 2/);
  });
});

type Row = [[number, number], [number, number]];

function counts(rows: Row[]): StratifiedCounts {
  return {
    cases: rows.map(([[x]]) => x),
    tested: rows.map(([[, n]]) => n),
    referenceCases: rows.map(([, [x]]) => x),
    referenceTested: rows.map(([, [, n]]) => n),
  };
}
