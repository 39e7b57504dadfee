import type { Block } from './blocks';
import { type Need, needsOf } from './needs';
import type { Setting } from './settle-block';
import { isSettled, isUnanimous } from './settled-outcome';
import type { ShiftModel } from './shift-model';

export interface DistantNeed extends Need {
  /** How far the truth is from granting it; 0 or less: it does. */
  distance: number;
}

/** What the units of one block need as long as they are withheld. */
export class BlockNeeds {
  /** By unit: where larger cells leave its outcome open, and where they say it. */
  private readonly known = new Map<number, DistantNeed[]>();

  constructor(
    private readonly block: Block,
    private readonly model: ShiftModel,
    private readonly setting: Pick<Setting, 'table' | 'primary' | 'withheld' | 'k' | 'ties'>,
  ) {}

  of(unit: number): DistantNeed[] {
    const { table, withheld } = this.setting;
    const cells = this.block.units[unit]!;
    const says = (cell: number) => withheld[cell] === 0 && isUnanimous(table.cells[cell]!);
    const settled = isSettled(table, cells[0]!, says);
    const key = unit * 2 + (settled ? 1 : 0);
    const known = this.known.get(key);
    if (known) return known;
    const needs = [...this.ofCells(cells, unit, settled), ...this.ofSenders(cells, unit)].map((need) => ({
      ...need,
      distance: this.distance(need),
    }));
    this.known.set(key, needs);
    return needs;
  }

  /** To be called where the table has changed. */
  forget(): void {
    this.known.clear();
  }

  private ofCells(cells: number[], unit: number, settled: boolean): Need[] {
    const { table, primary, k, ties } = this.setting;
    const members = cells.map((cell) => ({
      cell: table.cells[cell]!,
      least: table.least[cell]!,
      primary: primary[cell] === 1,
      earlier: ties.earlier[cell]!,
    }));
    return needsOf(unit, members, settled, k);
  }

  /** Of what is not the sender's own in the cell, another count must be possible: one more or one less. */
  private ofSenders(cells: number[], unit: number): Need[] {
    return this.setting.ties.senders.flatMap((need, s): Need[] => {
      if (need.cell !== cells[0]) return [];
      const { quantity } = need;
      const truth = this.model.truthOf({ subject: { unit }, quantity, sense: 'at least', value: 0 });
      const wish = (sense: 'at least' | 'at most', value: number) => ({
        ...{ subject: { unit }, quantity, sense, value },
      });
      const floors = this.block.units.flatMap(([cell], u) => {
        const counts = need.own.get(cell!);
        return counts ? [{ unit: u, counts }] : [];
      });
      const wishes = [wish('at least', truth + 1), wish('at most', truth - 1)];
      const mayFail = need.ofPart ?? false;
      return [{ key: `sender ${s} ${unit} ${quantity}`, unit, wishes, floors, mayFail }];
    });
  }

  private distance({ wishes }: Need): number {
    const distances = wishes.map((wish) => {
      const difference = wish.value - this.model.truthOf(wish);
      return wish.sense === 'at least' ? difference : -difference;
    });
    return Math.min(...distances);
  }
}
