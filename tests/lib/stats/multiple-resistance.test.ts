import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type GroupMasks, multipleResistance } from '@/lib/stats/multiple-resistance';
import { resistancePairs } from '@/lib/stats/resistance-pairs';

/** Invented populations: which of five groups were tested, which of these resistant; a season, a county. */
const populations = fc.array(
  fc.record({
    tested: fc.nat(31),
    found: fc.nat(31),
    season: fc.constantFrom(2020, 2021, 2023),
    stratum: fc.nat(3),
  }),
  { maxLength: 40 },
);
type Population = { tested: number; found: number; season: number; stratum: number };

describe('multiple resistance', () => {
  it('counts a small invented table as by hand', () => {
    // Tested for groups 0, 1 and 2; 0 and 1; 0 only. Resistant to 0 and 2; to both; to it.
    const rows = multipleResistance({
      tested: Int32Array.of(0b111, 0b011, 0b001),
      resistant: Int32Array.of(0b101, 0b011, 0b001),
    });
    expect(rows).toEqual([
      { season: 0, groups: 1, tested: 3, exactly: 1, atLeast: 3 },
      { season: 0, groups: 2, tested: 2, exactly: 2, atLeast: 2 },
      { season: 0, groups: 3, tested: 1, exactly: 0, atLeast: 0 },
    ]);
  });

  it('equals counting each population by the letters of its lists', () => {
    fc.assert(
      fc.property(populations, (list) => {
        const lists = list.map(({ tested, found, season }) => ({
          season,
          tested: [0, 1, 2, 3, 4].filter((g) => tested & (1 << g)).length,
          resistant: [0, 1, 2, 3, 4].filter((g) => tested & found & (1 << g)).length,
        }));
        for (const row of multipleResistance(masksOf(list))) {
          const could = lists.filter(({ season, tested }) => season === row.season && tested >= row.groups);
          expect(row.tested).toBe(could.length);
          expect(row.exactly).toBe(could.filter(({ resistant }) => resistant === row.groups).length);
          expect(row.atLeast).toBe(could.filter(({ resistant }) => resistant >= row.groups).length);
        }
      }),
    );
  });

  it('is the same for groups in any order', () => {
    fc.assert(
      fc.property(populations, (list) => {
        const turned = list.map((each) => ({ ...each, tested: turn(each.tested), found: turn(each.found) }));
        expect(multipleResistance(masksOf(turned))).toEqual(multipleResistance(masksOf(list)));
      }),
    );
  });

  it('has no rows without populations, and refuses a find without a test', () => {
    expect(multipleResistance({ tested: new Int32Array(0), resistant: new Int32Array(0) })).toEqual([]);
    expect(() => multipleResistance({ tested: Int32Array.of(1), resistant: Int32Array.of(2) })).toThrow(
      /Population 0: got masks 1 tested, 2 resistant/,
    );
    expect(() => resistancePairs({ tested: Int32Array.of(1), resistant: new Int32Array(0) })).toThrow(
      /lengths 1 and 0/,
    );
  });
});

describe('pairs of groups', () => {
  it('gives the exact test of the one table of populations tested for both', () => {
    // Invented: the lady's table (Fisher 1935, from memory) among eight populations tested for groups 0 and 2; one
    // tested for a single group does not count.
    const resistant = [0b101, 0b101, 0b101, 0b001, 0b100, 0, 0, 0, 0b001];
    const pairs = resistancePairs({
      tested: Int32Array.from(resistant, (_, i) => (i < 8 ? 0b101 : 0b001)),
      resistant: Int32Array.from(resistant),
    });
    expect(pairs).toHaveLength(1);
    expect(pairs[0]).toMatchObject({ first: 0, second: 2, tested: 8, both: 3, firstOnly: 1, secondOnly: 1 });
    expect(pairs[0]).toMatchObject({ neither: 3, strata: 1, reason: null });
    expect(pairs[0]!.pGreater).toBeCloseTo(17 / 70, 12);
    expect(pairs[0]!.adjusted).toBeCloseTo(34 / 70, 12);
  });

  it('sees nothing beyond chance where two groups are common in the same county only', () => {
    // Invented: in one county all are resistant to both groups, in the other none to either.
    const tested = Int32Array.from({ length: 20 }, () => 0b11);
    const resistant = Int32Array.from({ length: 20 }, (_, i) => (i < 10 ? 0b11 : 0));
    const strata = Int32Array.from({ length: 20 }, (_, i) => (i < 10 ? 7 : 8));
    expect(resistancePairs({ tested, resistant })[0]!.p).toBeLessThan(1e-4);
    expect(resistancePairs({ tested, resistant }, { strata })[0]).toMatchObject({
      p: 1,
      adjusted: 1,
      oddsRatio: null,
      reason: 'nothing varies',
    });
  });

  it('is less careful by mid-p, in p and in the interval', () => {
    // Invented: as above, the lady's table.
    const resistant = Int32Array.of(3, 3, 3, 1, 2, 0, 0, 0);
    const tested = new Int32Array(8).fill(3);
    const exact = resistancePairs({ tested, resistant })[0]!;
    const mid = resistancePairs({ tested, resistant }, { midP: true })[0]!;
    expect(mid.pGreater).toBeCloseTo(17 / 70 - 16 / 140, 12);
    expect(mid.oddsRatio).toBeCloseTo(exact.oddsRatio!, 12);
    expect(mid.low! > exact.low! && mid.high! < exact.high!).toBe(true);
  });

  it('is symmetric in the two groups: the table turned over has the same odds ratio and p', () => {
    fc.assert(
      fc.property(populations, (list) => {
        const strata = list.map(({ stratum }) => stratum);
        const turned = list.map((each) => ({ ...each, tested: turn(each.tested), found: turn(each.found) }));
        const other = resistancePairs(masksOf(turned), { strata });
        for (const pair of resistancePairs(masksOf(list), { strata })) {
          const same = other.find(
            ({ first, second }) => first === 4 - pair.second && second === 4 - pair.first,
          )!;
          expect(same).toMatchObject({ both: pair.both, firstOnly: pair.secondOnly, reason: pair.reason });
          expect(same.p).toBeCloseTo(pair.p, 9);
          expect(same.adjusted).toBeCloseTo(pair.adjusted, 9);
          if (pair.oddsRatio) expect(Math.log(same.oddsRatio! / pair.oddsRatio)).toBeCloseTo(0, 8);
        }
      }),
      { numRuns: 50 },
    );
  });
});

function masksOf(list: readonly Population[]): GroupMasks & { season: number[] } {
  return {
    tested: Int32Array.from(list, ({ tested }) => tested),
    resistant: Int32Array.from(list, ({ tested, found }) => tested & found),
    season: list.map(({ season }) => season),
  };
}

/** The five groups in the opposite order. */
function turn(mask: number): number {
  return [0, 1, 2, 3, 4].reduce((turned, g) => turned | (((mask >> g) & 1) << (4 - g)), 0);
}
