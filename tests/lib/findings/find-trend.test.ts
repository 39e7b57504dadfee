import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findTrend } from '@/lib/findings/find-trend';
import type { Observation } from '@/lib/findings/types';
import { Random } from '@/lib/stats/random';
import { observation, PAIR, season } from './invented';

const seasons = [2018, 2019, 2020, 2021, 2022, 2023];
const input = { seasons, grain: 'district' as const, ...PAIR };
const cell = (
  place: string,
  year: number,
  resistant: number,
  tested: number,
  kind: Observation['placeKind'] = 'district',
) => observation(place, resistant, tested, season(year), kind);

/** Invented: in each of twelve districts the share rises by a tenth of its populations every season. */
const rising = Array.from({ length: 12 }, (_, d) => d).flatMap((d) =>
  seasons.map((year, s) => cell(`d${d}`, year, Math.min(20, (d % 3) + 2 * s + 1), 20)),
);
const region = (shares: readonly number[]) =>
  shares.map((share, s) => cell('region', seasons[s]!, Math.round(share * 200), 200, 'region'));

describe('the trend of a share', () => {
  it('is told where each district rises, with its interval, and of the region’s series beside it', () => {
    const found = findTrend({
      ...input,
      observations: [...rising, ...region([0.1, 0.2, 0.3, 0.4, 0.5, 0.6])],
    });
    expect(found).toMatchObject({ from: 2018, to: 2023, places: 12, reason: null });
    expect(found.low).toBeGreaterThan(1);
    expect(found.p).toBeLessThan(0.001);
    // By hand: of 720 orders of six values one rises throughout and one falls; slopes are all 0.1.
    expect(found.series).toMatchObject({
      seasons: 6,
      p: expect.closeTo(2 / 720, 12),
      slope: expect.closeTo(0.1, 9),
    });
    expect(found.sentence).toMatch(
      /^ABCDE, group 9, 2018 to 2023: comparing each district with itself only \(12 districts\), the odds of a resistant population were multiplied by 1\.\d+ with each season \(95 % interval 1\.\d+ to 1\.\d+\): a rise, more than chance would bring\. The region’s share of what was sent rose over 6 seasons more than chance would bring \(\+10\.0 percentage points a season; 95 % interval/,
    );
    expect(found.sentence).toContain('a trend in submissions is not a trend in resistance');
  });

  it('is none where testing moves to districts with more, though the region’s share rises', () => {
    // Invented: two kinds of districts, of 10 and 70 %; early seasons test the first, late ones the second.
    const moving = Array.from({ length: 12 }, (_, d) => d).flatMap((d) =>
      seasons.map((year, s) => {
        const isHigh = d % 2 === 0;
        const tested = isHigh ? 10 * (s + 1) : 10 * (6 - s);
        return cell(`d${d}`, year, Math.round(tested * (isHigh ? 0.7 : 0.1)), tested);
      }),
    );
    const shares = seasons.map((year) => {
      const own = moving.filter(({ period }) => period.first === year);
      const sum = (of: (one: Observation) => number) => own.reduce((total, one) => total + of(one), 0);
      return sum((one) => one.resistant) / sum((one) => one.tested);
    });
    const found = findTrend({ ...input, observations: [...moving, ...region(shares)] });
    expect(found.oddsRatio).toBeCloseTo(1, 1);
    expect(found.low!).toBeLessThan(1);
    expect(found.high!).toBeGreaterThan(1);
    expect(found.series!.p).toBeLessThan(0.01);
    expect(found.sentence).toContain('no clear change');
  });

  it('is told of 20 in 400 invented programmes without one, or little more', () => {
    const random = new Random(3);
    const told = Array.from({ length: 400 }, () => {
      const observations = Array.from({ length: 15 }, (_, d) => d).flatMap((d) =>
        seasons.map((year) => {
          let resistant = 0;
          for (let k = 0; k < 8; k += 1) resistant += Number(random.uniform() < 0.2 + 0.04 * d);
          return cell(`d${d}`, year, resistant, 8);
        }),
      );
      return findTrend({ ...input, observations });
    }).filter(({ low, high }) => low! > 1 || high! < 1);
    // 33 are beyond 99.8 % of the binomial distribution.
    expect(told.length).toBeLessThan(34);
  });

  it('does not depend on the order of its input, nor on other seasons, windows and kinds of places', () => {
    const all = [...rising, ...region([0.3, 0.1, 0.2, 0.4, 0.2, 0.3])];
    const others = [
      cell('d0', 2017, 9, 9),
      observation('d0', 1, 9, { first: 2018, last: 2020 }, 'district'),
      observation('c0', 1, 9, season(2020), 'county'),
    ];
    const expected = findTrend({ ...input, observations: all });
    fc.assert(
      fc.property(fc.shuffledSubarray([...all, ...others], { minLength: all.length + 3 }), (observations) => {
        expect(findTrend({ ...input, observations })).toEqual(expected);
      }),
      { numRuns: 10 },
    );
  });

  it.each<[string, readonly number[], Observation[], RegExp]>([
    ['no season', [], [], /No place has a known count in two closed seasons/],
    ['one season', [2018], rising, /No place has a known count in two closed seasons/],
    ['nothing known', seasons, [], /No place has a known count in two closed seasons/],
    [
      'none resistant',
      seasons,
      rising.map((one) => ({ ...one, resistant: 0 })),
      /In no place were some but not all/,
    ],
    [
      'a gap of years',
      [2018, 2023],
      [cell('a', 2018, 1, 9), cell('a', 2023, 7, 9), cell('b', 2018, 2, 9), cell('b', 2023, 6, 9)],
      /multiplied by 1\.\d+ with each season/,
    ],
    [
      'each place tested once',
      seasons,
      seasons.map((year, s) => cell(`d${s}`, year, s, 9)),
      /In no place were some but not all/,
    ],
    [
      'no place that points to a fall',
      [2018, 2019],
      [cell('a', 2018, 0, 9), cell('a', 2019, 9, 9)],
      /No place points to a fall.*\(p < 0\.001\)/,
    ],
  ])('of %s is a defined answer with its sentence', (_, closed, observations, sentence) => {
    const found = findTrend({ ...input, seasons: closed, observations });
    expect(found.sentence).toMatch(sentence);
    expect(found.sentence).not.toMatch(/NaN|undefined|null/);
  });

  it('says of a short series that it is too short, and of three seasons nothing', () => {
    const short = (years: readonly number[]) =>
      findTrend({
        ...input,
        seasons: years,
        observations: years.map((year, s) => cell('region', year, 2 * s + 1, 20, 'region')),
      });
    expect(short([2018, 2019, 2020, 2021]).sentence).toContain('too few to tell a trend from chance');
    expect(short([2018, 2019, 2020]).series).toBeNull();
  });
});
