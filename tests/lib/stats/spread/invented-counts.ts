import fc from 'fast-check';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import { ringWith } from '../invented-map';

/** From rows of [resistant, tested] by season. */
export function counted(
  rows: readonly (readonly (readonly [number, number])[])[],
  seasons: readonly number[] = rows.map((_, t) => 2015 + t),
): SeasonCounts {
  return Object.freeze({
    seasons: Object.freeze([...seasons]),
    places: rows[0]?.length ?? 0,
    tested: Int32Array.from(rows.flat(), ([, tested]) => tested),
    resistant: Int32Array.from(rows.flat(), ([resistant]) => resistant),
  });
}

/** Invented: two places in which nothing can be told of what follows a find, each with what there is only. */
export const NOTHING_TO_COMPARE: readonly (readonly [string, SeasonCounts])[] = [
  [
    'one season',
    counted([
      [
        [1, 2],
        [0, 2],
      ],
    ]),
  ],
  [
    'one find',
    counted([
      [
        [0, 1],
        [0, 1],
      ],
      [
        [1, 1],
        [0, 1],
      ],
    ]),
  ],
  [
    'all found in one season',
    counted([
      [
        [1, 1],
        [1, 1],
      ],
      [
        [0, 1],
        [0, 1],
      ],
    ]),
  ],
  [
    'nothing found after years without tests',
    counted(
      [
        [
          [0, 1],
          [0, 1],
        ],
        [
          [0, 1],
          [0, 1],
        ],
      ],
      [1999, 2020],
    ),
  ],
];

/** Both counts of a cell, tested in two of three. */
const cell = fc.integer({ min: -3, max: 6 }).chain((tested) =>
  fc.tuple(
    fc.integer({ min: 0, max: 4 }).map((found) => (found < 3 ? 0 : Math.min(found - 2, Math.max(0, tested)))),
    fc.constant(Math.max(0, tested)),
  ),
) as fc.Arbitrary<[number, number]>;

/** Invented: counts of a few seasons (with gaps) on a ring with chords, and an order to relabel places by. */
export const inventedCounts = fc
  .tuple(fc.integer({ min: 3, max: 9 }), fc.integer({ min: 1, max: 6 }))
  .chain(([n, seasons]) =>
    fc.record({
      rows: fc.array(fc.array(cell, { minLength: n, maxLength: n }), {
        minLength: seasons,
        maxLength: seasons,
      }),
      seasons: fc
        .array(fc.integer({ min: 1, max: 3 }), { minLength: seasons, maxLength: seasons })
        .map((steps) => steps.map((_, t) => 2010 + steps.slice(0, t + 1).reduce((a, b) => a + b, 0))),
      lists: fc
        .array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: n })
        .map((chords) => ringWith(n, chords)),
      x: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: n, maxLength: n }),
      y: fc.array(fc.integer({ min: -9, max: 9 }), { minLength: n, maxLength: n }),
      order: fc.shuffledSubarray([...Array(n).keys()], { minLength: n }),
    }),
  );
