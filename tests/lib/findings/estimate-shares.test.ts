import fc from 'fast-check';
import { expect, it } from 'vitest';
import { estimateShares } from '@/lib/findings/estimate-shares';
import { observation } from './invented';

// Invented counts.
const observations = [
  observation('b', 0, 6),
  observation('a', 29, 41),
  observation('c', 0, 0),
  observation('d', 3, 20),
];

it('a share keeps its counts, its interval and its raw value beside the smoothed one', () => {
  // 29 of 41: Wilson 0.556–0.824, by hand from the formula with z = 1.959964.
  const [a, b, ...others] = estimateShares(observations);
  expect(a).toMatchObject({ place: 'a', tested: 41, resistant: 29, share: 29 / 41 });
  expect(a!.low).toBeCloseTo(0.5552, 3);
  expect(a!.high).toBeCloseTo(0.8239, 3);
  expect(b).toMatchObject({ place: 'b', share: 0, low: 0 });
  expect(b!.smoothed).toBeGreaterThan(0);
  expect(others.map(({ place }) => place)).toEqual(['d']);
});

it('shares do not depend on the order of the input', () => {
  fc.assert(
    fc.property(fc.shuffledSubarray(observations, { minLength: 4 }), (shuffled) => {
      expect(estimateShares(shuffled)).toEqual(estimateShares(observations));
    }),
  );
});

it('no known place gives no share, and impossible counts are refused', () => {
  expect(estimateShares([observation('c', 0, 0)])).toEqual([]);
  expect(() => estimateShares([observation('a', 5, 4)])).toThrow(/got 5 of 4/);
});
