import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findFirstDetections } from '@/lib/findings/find-first-detections';
import { observation, PAIR, season } from './invented';

/** Invented: four counties over four seasons. */
const observations = [
  observation('a', 0, 12, season(2020)),
  observation('a', 0, 8, season(2021)),
  observation('a', 2, 9, season(2023)),
  observation('a', 0, 9, season(2024)),
  observation('b', 1, 5, season(2022)),
  observation('b', 4, 5, season(2023)),
  observation('c', 0, 7, season(2021)),
  observation('d', 0, 0, season(2021)),
  observation('d', 3, 6, season(2022)),
];
const input = { observations, withheld: [], placeKind: 'county' as const };

describe('first detections', () => {
  it('tell a place that was clean before from one that was never tested before', () => {
    expect(
      findFirstDetections(input).map(({ place, period, how, lastClean }) => ({
        place,
        period,
        how,
        lastClean,
      })),
    ).toEqual([
      { place: 'a', period: season(2023), how: 'new after a clean record', lastClean: season(2021) },
      { place: 'b', period: season(2022), how: 'found at first test', lastClean: null },
      { place: 'd', period: season(2022), how: 'found at first test', lastClean: null },
    ]);
  });

  it('say in words how many were screened and how little a small clean record excludes', () => {
    // By hand: none in 8 leaves room for 1 − 0.05^(1/8) = 31 %.
    const [a, b] = findFirstDetections(input);
    expect(a!.sentence).toBe(
      'ABCDE, group 9: first confirmed in a (2023; 2 of 9 populations screened were resistant). New after a clean record: none was found among 8 screened in 2021 (so few leave room for up to 31 % unseen). As far as that goes it came after 2021 and by 2023.',
    );
    expect(b!.sentence).toContain('1 of 5 populations screened was resistant');
    expect(b!.sentence).toContain('it may have been there for years');
  });

  it('claim no first test where an earlier cell is withheld', () => {
    const earlier = { placeKind: 'county' as const, place: 'b', period: season(2021), ...PAIR };
    const found = findFirstDetections({ ...input, withheld: [earlier] });
    expect(found[1]).toMatchObject({ place: 'b', how: 'earlier record not shown', lastClean: null });
    expect(found[1]!.sentence).toContain('first shown as confirmed in b');
  });

  it('do not change with a withheld cell that is later, elsewhere, or of a place that is not shown at all', () => {
    const cell = { placeKind: 'county' as const, place: 'b', period: season(2024), ...PAIR };
    const withheld = [
      cell,
      { ...cell, place: 'z', period: season(2020) },
      { ...cell, place: 'c', period: season(2020) },
    ];
    expect(findFirstDetections({ ...input, withheld })).toEqual(findFirstDetections(input));
  });

  it('do not depend on the order of their input', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray(observations, { minLength: observations.length }), (shuffled) => {
        expect(findFirstDetections({ ...input, observations: shuffled })).toEqual(findFirstDetections(input));
      }),
    );
  });

  it('of one place are the same whatever other places show', () => {
    const only = observations.filter(({ place }) => place === 'a');
    expect(findFirstDetections({ ...input, observations: only })).toEqual(
      findFirstDetections(input).slice(0, 1),
    );
  });

  it('refuse periods that overlap and places of another kind', () => {
    const window = observation('a', 0, 30, { first: 2020, last: 2022 });
    expect(() => findFirstDetections({ ...input, observations: [...observations, window] })).toThrow(
      /county a has observations of 2020(–2022)? and 2020(–2022)?, which overlap/,
    );
    expect(() => findFirstDetections({ ...input, placeKind: 'district' })).toThrow(/expected district only/);
  });
});
