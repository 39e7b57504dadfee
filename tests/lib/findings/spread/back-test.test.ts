import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backTest, type Comparison } from '@/lib/findings/spread/back-test';
import { chanceOfAsMany } from '@/lib/findings/spread/back-test/draws';
import { type LookNextInput, lookNext } from '@/lib/findings/spread/look-next';
import { hypergeometricTest } from '@/lib/stats/hypergeometric';
import { Random } from '@/lib/stats/random';
import { subsets } from '../../stats/invented-map';
import { front, squareLand } from './look-next-invented';

describe('the chance that draws hold as many', () => {
  it('is that of the lady who tastes tea: 17 / 70 for three of four or more (Fisher 1935, section 11, from memory)', () => {
    expect(chanceOfAsMany(3, [{ total: 8, marked: 4, drawn: 4 }])).toBeCloseTo(17 / 70, 14);
  });

  const draw = fc
    .record({ total: fc.integer({ min: 1, max: 40 }), marked: fc.nat(40), drawn: fc.nat(40) })
    .filter(({ total, marked, drawn }) => marked <= total && drawn <= total);

  it('is the hypergeometric tail for one draw', () => {
    fc.assert(
      fc.property(draw, (one) => {
        const least = Math.max(0, one.drawn + one.marked - one.total);
        for (let count = least; count <= Math.min(one.marked, one.drawn); count += 1) {
          expect(chanceOfAsMany(count, [one])).toBeCloseTo(hypergeometricTest(count, one).greater, 10);
        }
      }),
    );
  });

  it('counts every pair of choices for two draws', () => {
    const [a, b] = [
      [1, 1, 0, 0],
      [1, 0, 0],
    ];
    const sums = subsets([0, 1, 2, 3], 2).flatMap((first) =>
      subsets([0, 1, 2], 2).map(
        (second) => [...first.map((i) => a[i]!), ...second.map((i) => b[i]!)].filter(Boolean).length,
      ),
    );
    for (const count of [0, 1, 2, 3]) {
      const share = sums.filter((sum) => sum >= count).length / sums.length;
      const draws = [
        { total: 4, marked: 2, drawn: 2 },
        { total: 3, marked: 1, drawn: 2 },
      ];
      expect(chanceOfAsMany(count, draws)).toBeCloseTo(share, 14);
    }
  });

  it('is 1 without a draw, above 0 always, and holds thousands', () => {
    expect(chanceOfAsMany(0, [])).toBe(1);
    expect(chanceOfAsMany(1, [])).toBeGreaterThan(0);
    const huge = { total: 4000, marked: 2000, drawn: 2000 };
    expect(chanceOfAsMany(1000, [huge])).toBeCloseTo(hypergeometricTest(1000, huge).greater, 9);
  });
});

describe('the back-test', () => {
  const forgetting = ({ season: _, names: __, exposure: ___, ...input }: LookNextInput) => input;

  it('finds the front: more than at random, no fewer than beside finds', () => {
    const { totals, seasons, modelled } = backTest({ ...forgetting(front(10, 7)), heads: [5] });
    expect(seasons.map(({ season }) => season)).toEqual([2021, 2022, 2023, 2024, 2025, 2026]);
    expect(modelled).toBe(seasons.filter(({ order }) => order === 'hazard').length);
    expect(modelled).toBeGreaterThan(1);
    const [{ found, pRandom, pNearFinds }] = totals as [(typeof totals)[0]];
    expect(found.list).toBeGreaterThan(found.random);
    expect(found.list).toBeGreaterThanOrEqual(found.nearFinds);
    expect(pRandom).toBeLessThan(0.001);
    expect(pNearFinds).toBeLessThanOrEqual(1);
  });

  it('gives each season what stands in the list made of the seasons before it', () => {
    const input = front(8, 6);
    const { counts } = input;
    const { seasons } = backTest({ ...forgetting(input), heads: [3, 9] });
    for (const { season, heads, candidates, found, expected } of seasons) {
      const t = counts.seasons.length - (2026 - season);
      const cells = t * counts.places;
      const looked = lookNext({
        ...input,
        season,
        counts: {
          ...{ seasons: Array.from(counts.seasons).slice(0, t), places: counts.places },
          tested: counts.tested.slice(0, cells),
          resistant: counts.resistant.slice(0, cells),
        },
      });
      const isFound = ({ place }: { place: string }) =>
        counts.resistant[cells + input.places.indexOf(place)]!;
      // Here every place is tested in every season, once.
      expect(candidates).toBe(looked.places.length);
      expect(found).toBe(looked.places.reduce((sum, place) => sum + isFound(place), 0));
      for (const head of heads) {
        const named = looked.places.slice(0, head.places);
        expect(head.found.list).toBe(named.reduce((sum, place) => sum + isFound(place), 0));
        expect(head.found.random).toBeCloseTo((named.length * found) / candidates, 12);
        expect([head.tested, head.testedFound]).toEqual([named.length, head.found.list]);
      }
      const one = looked.places.reduce((sum, { chance }) => sum + 1 - (1 - (chance ?? 0)) ** 0.25, 0);
      if (looked.order === 'hazard') expect(expected).toBeCloseTo(one, 9);
      else expect(expected).toBeNull();
    }
  });

  it('expects of a random choice, and of one beside finds, the mean over all choices', () => {
    // Invented: 3 × 3 places; a corner is found, then what lies around it by chance.
    const random = new Random(3);
    const input = squareLand(
      3,
      [2020, 2021],
      (row, column, t) =>
        [
          Number(row + column === 0 || (t === 1 && random.uniform() < 0.4)),
          row === 2 && column === 2 ? 0 : 1,
        ].map((value, k) => (k === 0 && row === 2 && column === 2 ? 0 : value)) as [number, number],
    );
    const [{ heads, candidates }] = backTest({ ...forgetting(input), heads: [1, 2, 4] }).seasons as [
      ReturnType<typeof backTest>['seasons'][0],
    ];
    expect(candidates).toBe(7);
    const isFound = (i: number) => Number(input.counts.resistant[9 + i]! > 0);
    const near = [1, 3];
    const far = [2, 4, 5, 6, 7];
    const mean = (choices: number[][]) =>
      choices.reduce((sum, choice) => sum + choice.reduce((all, i) => all + isFound(i), 0), 0) /
      choices.length;
    for (const { places, found } of heads) {
      expect(found.random).toBeCloseTo(mean(subsets([...near, ...far], places)), 12);
      const fromNear = subsets(near, Math.min(2, places));
      const fromFar = subsets(far, Math.max(0, places - 2));
      expect(found.nearFinds).toBeCloseTo(
        mean(fromNear.flatMap((a) => fromFar.map((b) => [...a, ...b]))),
        12,
      );
    }
  });

  it('does not know what is found in the season or later', () => {
    const input = front(8, 6);
    const planted = Float64Array.from(input.counts.tested, (_, cell) => (cell % 7) / 7);
    const later = input.counts.resistant.map((resistant, cell) =>
      cell >= 4 * 64 ? Number(cell % 3 === 0) : resistant,
    );
    const before = backTest({ ...forgetting(input), planted }).seasons;
    const after = backTest({
      ...forgetting(input),
      planted,
      counts: { ...input.counts, resistant: later },
    }).seasons;
    // Season 2024 is the first in which something else was found: its list, judged by the planted shares, is the same.
    for (const t of [0, 1, 2, 3]) {
      expect(after[t]!.heads.map(({ toFind }) => toFind)).toEqual(
        before[t]!.heads.map(({ toFind }) => toFind),
      );
    }
    expect(after[3]!.heads[0]!.found).not.toEqual(before[3]!.heads[0]!.found);
  });

  it('judges the whole list by planted shares, tested or not', () => {
    const input = front(8, 5);
    const all = (value: number) => new Float64Array(input.counts.tested.length).fill(value);
    const { totals, modelled } = backTest({ ...forgetting(input), planted: all(0.5), heads: [4] });
    const each = (value: number): Comparison => ({
      ...{ named: 4 * modelled, list: value, random: value, nearFinds: value, rule: value },
    });
    expect(totals[0]!.arrived).toEqual(each(4 * modelled));
    const toFind = 4 * modelled * (1 - 0.5 ** 4);
    for (const value of Object.values(totals[0]!.toFind!).slice(1)) expect(value).toBeCloseTo(toFind, 9);
    expect(backTest({ ...forgetting(input) }).totals[0]).toMatchObject({ arrived: null, toFind: null });
  });

  it('compares with places tested as much', () => {
    const { seasons } = backTest({ ...forgetting(front(8, 5)), heads: [6] });
    // All were tested once: as much is all, and random is the same.
    for (const { heads } of seasons)
      expect(heads[0]!.foundTestedAlike).toBeCloseTo(heads[0]!.found.random, 12);
  });

  it('has no totals where no season carries a model, and nothing to say of one season', () => {
    const none = backTest(forgetting(squareLand(3, [2020, 2021], () => [0, 1])));
    expect(none).toMatchObject({
      modelled: 0,
      totals: [{ pRandom: 1, found: { named: 0 } }, { pRandom: 1 }],
    });
    expect(none.seasons).toMatchObject([
      { noModel: expect.stringContaining('nothing was found'), expected: null },
    ]);
    expect(backTest(forgetting(squareLand(3, [2020], () => [1, 1]))).seasons).toEqual([]);
  });

  it('refuses heads and planted shares that cannot be', () => {
    const input = forgetting(front(4, 3));
    const refuse = (over: object) =>
      expect(() => backTest({ ...input, ...over })).toThrow(
        expect.objectContaining({ code: 'bad argument' }),
      );
    refuse({ heads: [0] });
    refuse({ heads: [2.5] });
    refuse({ planted: new Float64Array(3) });
    refuse({ planted: new Float64Array(48).fill(1.5) });
  });
});
