import type { Movement, Shift } from './shift-model';

/** A shift by the table's cells, to be handed from a small block to the larger one that holds it. */
export type CellShift = readonly { cells: readonly number[]; movement: Movement }[];

/** How many shifts are remembered for a unit: more than a small block finds. */
const MOST_FOUND = 300;

/** Shifts found so far: another truth stays one, whatever is withheld beside it. */
export class KnownShifts {
  private readonly byUnit = new Map<number, Shift[]>();

  add(shift: Shift): void {
    for (const unit of shift.moves.keys()) {
      const own = this.byUnit.get(unit) ?? [];
      if (own.length === 0) this.byUnit.set(unit, own);
      own.push(shift);
      if (own.length > MOST_FOUND) own.shift();
    }
  }

  /** The newest shift of this unit that is asked for. */
  find(unit: number, isAsked: (shift: Shift) => boolean): Shift | null {
    return this.byUnit.get(unit)?.findLast(isAsked) ?? null;
  }
}

export function toCells({ moves }: Shift, units: readonly (readonly number[])[]): CellShift {
  return [...moves].map(([unit, movement]) => ({ cells: units[unit]!, movement }));
}

/** The shift by the units of a block; null where the block joins its cells otherwise. */
export function toUnits(shift: CellShift, unitOfCell: ReadonlyMap<number, number>): Shift | null {
  const moves = new Map<number, Movement>();
  for (const { cells, movement } of shift) {
    const unit = unitOfCell.get(cells[0]!);
    if (unit === undefined || cells.some((cell) => unitOfCell.get(cell) !== unit)) return null;
    const before = moves.get(unit);
    moves.set(unit, before ? together(before, movement) : movement);
  }
  return { cost: 0, moves, broken: new Float64Array(0) };
}

function together(a: Movement, b: Movement): Movement {
  return {
    resistant: a.resistant + b.resistant,
    notResistant: a.notResistant + b.notResistant,
    most: a.most + b.most,
  };
}
