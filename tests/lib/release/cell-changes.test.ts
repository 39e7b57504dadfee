import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellKeyText } from '@/lib/disclosure/cell-order';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { cellChanges } from '@/lib/release/cell-changes';
import { cellOf, WITHHELD } from '../../db/invented';

// Invented.
const cell = Object.freeze(
  cellOf({
    placeKind: 'state',
    place: 'KS',
    period: { first: 2024, last: 2024 },
    counts: { tested: 12, resistant: 5, someSurvivors: 1 },
    receipt: { received: 20, testable: 15, inconclusive: 3 },
  }),
);
const withheld = (of: ReleasedCell): ReleasedCell => ({ ...of, ...WITHHELD });
const lines = (before: ReleasedCell[], now: ReleasedCell[]) =>
  cellChanges(before, now).map(({ change, column, before: was, after }) => [change, column, was, after]);

const counts = fc
  .record({ tested: fc.integer({ min: 5, max: 9 }), resistant: fc.nat(3), someSurvivors: fc.nat(2) })
  .map((one) => ({ ...one, receipt: null }));
/** Invented cells of a few places and seasons, some of them withheld. */
const cells = fc
  .uniqueArray(fc.tuple(fc.constantFrom('CO', 'KS', 'NE'), fc.integer({ min: 2023, max: 2025 })), {
    selector: String,
  })
  .chain((keys) =>
    fc.tuple(...keys.map((key) => fc.tuple(fc.constant(key), fc.boolean(), counts))).map((parts) =>
      parts.map(([[place, season], isShown, { tested, resistant, someSurvivors }]): ReleasedCell => {
        const own = { ...cell, place, period: { first: season, last: season }, receipt: null };
        const shown = { ...own, counts: { tested, resistant, someSurvivors } };
        return Object.freeze(isShown ? shown : withheld(own));
      }),
    ),
  );

describe('the changes between two releases', () => {
  it('are none between a release and itself', () => {
    fc.assert(
      fc.property(cells, (all) => {
        expect(cellChanges(all, all)).toEqual([]);
        expect(cellChanges(all, structuredClone(all))).toEqual([]);
      }),
    );
  });

  it('name each column that says something else, and no other', () => {
    const grown = { ...cell, counts: { tested: 19, resistant: 5, someSurvivors: 1 }, unfinished: true };
    expect(lines([cell], [grown])).toEqual([
      ['changed', 'unfinished', 'no', 'yes'],
      ['changed', 'tested', 12, 19],
    ]);
  });

  it('of a cell that is withheld on one side hold nothing of that side but its status', () => {
    expect(lines([cell], [withheld(cell)])).toEqual([
      ['changed', 'status', 'published', 'withheld'],
      ['changed', 'tested', 12, null],
      ['changed', 'resistant', 5, null],
      ['changed', 'some_survivors', 1, null],
      ['changed', 'received', 20, null],
      ['changed', 'testable', 15, null],
      ['changed', 'inconclusive', 3, null],
      ['changed', 'actives_tested', 'glyphosate', null],
    ]);
    expect(lines([withheld(cell)], [withheld(cell)])).toEqual([]);
  });

  it('tell of a cell in one release only that it appeared or disappeared, and its status', () => {
    expect(lines([], [cell])).toEqual([['appeared', 'status', null, 'published']]);
    expect(lines([withheld(cell)], [])).toEqual([['disappeared', 'status', 'withheld', null]]);
  });

  it('are the same the other way round, with both sides exchanged', () => {
    const turned = { appeared: 'disappeared', disappeared: 'appeared', changed: 'changed' };
    fc.assert(
      fc.property(cells, cells, (before, now) => {
        const there = cellChanges(before, now).map((one) => [
          ...[cellKeyText(one.cell), one.change, one.column, one.before, one.after],
        ]);
        const back = cellChanges(now, before).map((one) => [
          ...[cellKeyText(one.cell), turned[one.change], one.column, one.after, one.before],
        ]);
        expect(there).toEqual(back);
      }),
    );
  });

  it('made to the earlier counts give the later ones', () => {
    const told = (all: readonly ReleasedCell[]) =>
      new Map(
        all.flatMap((one): [string, unknown][] =>
          one.counts ? [[cellKeyText(one), one.counts.tested]] : [[cellKeyText(one), null]],
        ),
      );
    fc.assert(
      fc.property(cells, cells, (before, now) => {
        const made = told(before);
        const later = told(now);
        for (const { cell: own, change, column, after } of cellChanges(before, now)) {
          const key = cellKeyText(own);
          if (change === 'disappeared') made.delete(key);
          // What appears is only told by its status: its counts stand in the cells.
          else if (change === 'appeared') made.set(key, later.get(key));
          else if (column === 'tested') made.set(key, after);
        }
        expect([...made].sort()).toEqual([...later].sort());
      }),
    );
  });
});
