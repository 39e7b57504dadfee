import fc from 'fast-check';
import { expect, it } from 'vitest';
import { risingRoot } from '@/lib/stats/rising-root';

it('finds where a rising function passes its target, however far from the start', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.double({ min: -1e3, max: 1e3, noNaN: true }),
      (root, start) => {
        const found = risingRoot((x) => (x - root) ** 3, 0, start);
        expect(Math.abs(found - root)).toBeLessThanOrEqual(1e-9 * (1 + Math.abs(root)));
      },
    ),
  );
});

it('finds the step of a function that jumps, and says where there is none', () => {
  expect(risingRoot((x) => (x < 3 ? 0 : 1), 0.5)).toBeCloseTo(3, 12);
  expect(() => risingRoot(() => 0, 1)).toThrow(/No root within 2\^40 of 0/);
});
