import { describe, expect, it } from 'vitest';
import { findMatchedChange } from '@/lib/findings/find-matched-change';
import type { Observation } from '@/lib/findings/types';
import { observation, PAIR, season } from './invented';

const cell = (place: string, year: number, resistant: number, tested: number) =>
  observation(place, resistant, tested, season(year), 'district');
const input = { from: 2023, to: 2024, grain: 'district' as const, ...PAIR };

/** Invented: the share is the same in both districts and seasons, but the district with the higher one sends more later. */
const moreSeed = [
  cell('high', 2023, 6, 10),
  cell('low', 2023, 10, 100),
  cell('high', 2024, 60, 100),
  cell('low', 2024, 1, 10),
];

describe('matched change', () => {
  it('does not mistake more seed from where much is resistant for a rise', () => {
    const found = findMatchedChange({ ...input, observations: moreSeed });
    expect(found.oddsRatio).toBeCloseTo(1, 12);
    expect(found.p).toBeCloseTo(1, 12);
    expect(found.sentence).toBe(
      'ABCDE, group 9, 2023 to 2024: in the 2 districts screened in both seasons, 16 of 110 populations screened were resistant in 2023, and 61 of 110 populations screened were resistant in 2024. Comparing each district with itself, the odds of a resistant population in 2024 were 1.00 times those in 2023 (95 % interval 0.32 to 3.10): no clear change. Growers send what they suspect: a trend in submissions is not a trend in resistance.',
    );
  });

  it('sees a rise among the same places, and says so', () => {
    const observations = ['a', 'b', 'c'].flatMap((place) => [
      cell(place, 2023, 10, 50),
      cell(place, 2024, 25, 50),
    ]);
    const found = findMatchedChange({ ...input, observations });
    // By hand: each stratum is 25/25 against 10/40, the same odds ratio 4.
    expect(found.oddsRatio).toBeCloseTo(4, 12);
    expect(found.low).toBeGreaterThan(1);
    expect(found.sentence).toContain('more than chance would bring');
    expect(findMatchedChange({ ...input, from: 2024, to: 2023, observations }).sentence).toContain(
      'less than chance',
    );
  });

  it('leaves out places that were tested in one of the seasons only, and other seasons, windows and kinds', () => {
    const others = [
      cell('new', 2024, 9, 9),
      cell('gone', 2023, 0, 9),
      cell('high', 2022, 9, 9),
      cell('untested', 2023, 0, 0),
      cell('untested', 2024, 5, 9),
      observation('high', 1, 9, { first: 2022, last: 2024 }, 'district'),
      observation('high', 1, 9, season(2024), 'county'),
    ];
    expect(findMatchedChange({ ...input, observations: [...others, ...moreSeed].toReversed() })).toEqual(
      findMatchedChange({ ...input, observations: moreSeed }),
    );
  });

  it.each<[Observation[], number, RegExp]>([
    [[], 0, /No place has a known count in both seasons/],
    [[cell('a', 2023, 0, 9), cell('a', 2024, 0, 8)], 1, /No resistant population was found in either season/],
    [[cell('a', 2023, 9, 9), cell('a', 2024, 8, 8)], 1, /Every population screened was resistant/],
    [[cell('a', 2023, 0, 9), cell('a', 2024, 3, 8)], 1, /size of the rise cannot be estimated/],
    [[cell('a', 2023, 3, 9), cell('a', 2024, 0, 8)], 1, /size of the fall cannot be estimated/],
  ])('without an odds ratio says why (%#)', (observations, places, reason) => {
    const found = findMatchedChange({ ...input, observations });
    expect(found).toMatchObject({ oddsRatio: null, low: null, high: null, places });
    expect(found.reason).toMatch(reason);
    expect(found.sentence).toContain(found.reason);
    expect(found.sentence).not.toMatch(/NaN|null|undefined/);
  });

  it('refuses a district that is given twice in a season', () => {
    expect(() => findMatchedChange({ ...input, observations: [...moreSeed, moreSeed[0]!] })).toThrow(
      /district high/,
    );
  });
});
