import { describe, expect, it } from 'vitest';
import { KnownShifts, toCells, toUnits } from '@/lib/disclosure/known-shifts';
import type { Movement, Shift } from '@/lib/disclosure/shift-model';

const by = (resistant: number, notResistant: number): Movement => ({
  ...{ resistant, notResistant },
  most: Math.max(Math.abs(resistant), Math.abs(notResistant)),
});
const shiftOf = (moves: [number, Movement][]): Shift => ({
  ...{ cost: 0, moves: new Map(moves), broken: new Float64Array(0) },
});
const unitsOfCells = (units: readonly number[][]) =>
  new Map(units.flatMap((cells, unit) => cells.map((cell) => [cell, unit] as const)));

describe('a shift of a small block', () => {
  const small = [[4, 5], [6], [7]];
  const shift = toCells(
    shiftOf([
      [0, by(1, 0)],
      [1, by(0, -2)],
      [2, by(-1, 2)],
    ]),
    small,
  );

  it('moves the same cells in the larger one, added up where that joins them', () => {
    const larger = [[1], [7], [4, 5, 6]];
    expect([...toUnits(shift, unitsOfCells(larger))!.moves]).toEqual([
      [2, { resistant: 1, notResistant: -2, most: 3 }],
      [1, { resistant: -1, notResistant: 2, most: 2 }],
    ]);
  });

  it('is none of a block that tells apart what it moved together, or lacks a cell of it', () => {
    expect(toUnits(shift, unitsOfCells([[4], [5], [6], [7]]))).toBeNull();
    expect(toUnits(shift, unitsOfCells([[4, 5], [6]]))).toBeNull();
  });
});

describe('shifts that are remembered', () => {
  it('are found by a unit that they move, the newest first, and by no other', () => {
    const [first, second] = [
      shiftOf([[0, by(1, 0)]]),
      shiftOf([
        [0, by(2, 0)],
        [3, by(-2, 0)],
      ]),
    ];
    const known = new KnownShifts();
    known.add(first);
    known.add(second);
    expect(known.find(0, () => true)).toBe(second);
    expect(known.find(0, ({ moves }) => moves.size === 1)).toBe(first);
    expect(known.find(3, ({ moves }) => moves.size === 1)).toBeNull();
    expect(known.find(1, () => true)).toBeNull();
  });
});
