import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactOddsRatio } from '@/lib/stats/exact-odds-ratio';
import { hypergeometricTest } from '@/lib/stats/hypergeometric';
import type { StratifiedCounts } from '@/lib/stats/mantel-haenszel';

const group = fc
  .integer({ min: 0, max: 6 })
  .chain((tested) => fc.tuple(fc.integer({ min: 0, max: tested }), fc.constant(tested)));
type Row = [[number, number], [number, number]];
const strata = fc.array(fc.tuple(group, group) as fc.Arbitrary<Row>, { minLength: 1, maxLength: 4 });

describe('exact odds ratio', () => {
  it.each([
    // scipy 1.17.1, stats.contingency.odds_ratio(kind='conditional') and fisher_exact. The first is R's example of the
    // lady tasting tea: 6.408309 (0.3135693 … one-sided; from memory).
    {
      row: [
        [3, 4],
        [1, 4],
      ] as Row,
      want: [6.408319658199662, 0.21173559544657966, 626.2435305888141, 0.24285714285714283],
    },
    {
      row: [
        [8, 20],
        [3, 15],
      ] as Row,
      want: [2.593776092228332, 0.4686925530122943, 18.93053938056, 0.18668891360771225],
    },
    {
      row: [
        [40, 50],
        [25, 85],
      ] as Row,
      want: [9.412695279144083, 3.904761364114737, 24.584824049309603, 9.129089367731111e-9],
    },
  ])('is Fisher’s of one table: $row', ({ row, want: [oddsRatio, low, high, pGreater] }) => {
    const found = exactOddsRatio(counts([row]));
    // The outside solver stops at about 1e-5 of the odds ratio.
    expect(found.oddsRatio! / oddsRatio!).toBeCloseTo(1, 4);
    expect(found.low! / low!).toBeCloseTo(1, 4);
    expect(found.high! / high!).toBeCloseTo(1, 4);
    expect(found.pGreater / pGreater!).toBeCloseTo(1, 10);
  });

  it('is the hypergeometric test on one stratum, mid-p too', () => {
    fc.assert(
      fc.property(group, group, fc.boolean(), (a, b, midP) => {
        fc.pre(a[1] + b[1] > 0);
        const found = exactOddsRatio(counts([[a, b]]), 0.95, { midP });
        const draw = { total: a[1] + b[1], marked: a[0] + b[0], drawn: a[1] };
        const want = hypergeometricTest(a[0], draw, { midP });
        expect(found.pGreater).toBeCloseTo(want.greater, 12);
        expect(found.pLess).toBeCloseTo(want.less, 12);
      }),
    );
  });

  it('has the p of all tables listed one by one', () => {
    fc.assert(
      fc.property(strata, (rows) => {
        const { observed, ways } = listTables(rows);
        let all = 0;
        let atLeast = 0;
        for (const [sum, count] of ways) {
          all += count;
          if (sum >= observed) atLeast += count;
        }
        expect(exactOddsRatio(counts(rows)).pGreater).toBeCloseTo(atLeast / all, 10);
      }),
    );
  });

  it('solves its own equations: the mean at the estimate is the sum, each limit leaves its tail', () => {
    fc.assert(
      fc.property(strata, (rows) => {
        const { oddsRatio, low, high, reason } = exactOddsRatio(counts(rows), 0.9);
        if (reason !== null || oddsRatio === 0) return;
        const { observed, ways } = listTables(rows);
        expect(meanAt(ways, oddsRatio!)).toBeCloseTo(observed, 6);
        expect(tailAt(ways, low!, (sum) => sum >= observed)).toBeCloseTo(0.05, 8);
        expect(tailAt(ways, high!, (sum) => sum <= observed)).toBeCloseTo(0.05, 8);
        expect(low! <= oddsRatio! && oddsRatio! <= high!).toBe(true);
      }),
    );
  });

  it('turns over when group and reference change places, with whatever strata that allow one table only', () => {
    fc.assert(
      fc.property(strata, (rows) => {
        const one = exactOddsRatio(counts(rows));
        const other = exactOddsRatio(
          counts([
            ...rows.map(([a, b]): Row => [b, a]),
            [
              [2, 3],
              [0, 0],
            ],
          ]),
        );
        expect(other.pLess).toBeCloseTo(one.pGreater, 10);
        expect(other.strata).toBe(one.strata);
        if (one.oddsRatio && one.reason === null)
          expect(Math.log(other.oddsRatio!)).toBeCloseTo(-Math.log(one.oddsRatio), 8);
      }),
    );
  });

  it('never answers with NaN: at the ends one limit stays', () => {
    const none: Row = [
      [0, 3],
      [2, 4],
    ];
    const all: Row = [
      [2, 4],
      [0, 3],
    ];
    expect(exactOddsRatio(counts([none]))).toMatchObject({ oddsRatio: 0, low: 0, reason: null });
    expect(exactOddsRatio(counts([none])).high).toBeGreaterThan(1);
    expect(exactOddsRatio(counts([all]))).toMatchObject({ oddsRatio: null, high: null, reason: 'infinite' });
    expect(exactOddsRatio(counts([all])).low).toBeLessThan(1);
    expect(exactOddsRatio(counts([]))).toMatchObject({ p: 1, strata: 0, reason: 'nothing varies' });
    expect(() =>
      exactOddsRatio(
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

function counts(rows: readonly Row[]): StratifiedCounts {
  return {
    cases: rows.map(([[x]]) => x),
    tested: rows.map(([[, n]]) => n),
    referenceCases: rows.map(([, [x]]) => x),
    referenceTested: rows.map(([, [, n]]) => n),
  };
}

/** For each sum the number of ways to deal the cases out, over strata with a choice. */
function listTables(rows: readonly Row[]): { observed: number; ways: Map<number, number> } {
  let ways = new Map([[0, 1]]);
  let observed = 0;
  for (const [[a, n], [b, m]] of rows) {
    observed += a;
    const next = new Map<number, number>();
    for (let x = Math.max(0, a + b - m); x <= Math.min(n, a + b); x += 1) {
      for (const [sum, count] of ways) {
        next.set(sum + x, (next.get(sum + x) ?? 0) + count * choose(n, x) * choose(m, a + b - x));
      }
    }
    ways = next;
  }
  return { observed, ways };
}

function meanAt(ways: Map<number, number>, oddsRatio: number): number {
  const all = tailAt(ways, oddsRatio, () => true, false);
  let mean = 0;
  for (const [sum, count] of ways) mean += (sum * count * oddsRatio ** sum) / all;
  return mean;
}

function tailAt(
  ways: Map<number, number>,
  oddsRatio: number,
  within: (sum: number) => boolean,
  share = true,
) {
  let all = 0;
  let tail = 0;
  for (const [sum, count] of ways) {
    all += count * oddsRatio ** sum;
    if (within(sum)) tail += count * oddsRatio ** sum;
  }
  return share ? tail / all : all;
}

function choose(n: number, k: number): number {
  let ways = 1;
  for (let i = 1; i <= k; i += 1) ways = (ways * (n - k + i)) / i;
  return ways;
}
