import type { Highs } from 'highs';
import type { Block } from './blocks';
import type { LinkedTable } from './linked-table';
import { leaning, lossOf } from './loss';
import { type Need, needsOf } from './needs';
import { isSettled, isUnanimous } from './settled-outcome';
import { type Quantity, type Shift, ShiftModel, type Triple, unitOf } from './shift-model';
import type { EarlierValue } from './standing';

const MOVED = 1e-6;
/** A cell that only protects others costs a little when used again, so that the clean-up finds what is not needed. */
const USED_AGAIN = 0.001;
/** How often a need is asked for again at other prices. */
const REPRICINGS = 3;
/** A cell that the last answer did not move keeps its price, as if it had moved by this much. */
const UNMOVED = 0.5;
/** How often a block is solved at most, each time at other prices; not again after so many programs. */
const ATTEMPTS = 8;
const ENOUGH_PROGRAMS = 100;
/** Blocks of more units are solved once. */
const LARGE_BLOCK = 150;
/** How many shifts a block remembers: more than a small one finds. */
const MOST_FOUND = 300;

/** What one sender would know of the others in a withheld cell, as the audit found: it must be left open. */
export interface SenderNeed {
  cell: number;
  quantity: Exclude<Quantity, 'tested'>;
  /** It was a part by active of this cell that it knew: where the cell cannot be left open, the audit has the last word. */
  ofPart?: boolean;
  /** What this sender has in each cell of the pair. */
  own: ReadonlyMap<number, Triple>;
}

/** What binds the choice beside the cells themselves. Indices are those of the table's cells. */
export interface Ties {
  /** For each cell: an earlier release showed it, withheld it, or leaves it free (null). */
  standing: readonly ('shown' | 'withheld' | null)[];
  earlier: readonly (readonly EarlierValue[])[];
  senders: readonly SenderNeed[];
}

/** No choice of cells protects what must be protected: earlier releases show too much of it, or a sender knows it. */
export class UnprotectedCell extends Error {
  constructor(
    /** Index in the table. */
    readonly cell: number,
    reason: string,
  ) {
    super(reason);
  }
}

export interface Setting {
  table: LinkedTable;
  /** For each cell 1 where the primary rule withholds it. */
  primary: Uint8Array;
  /** For each cell 1 where it is withheld; the block's cells are changed. */
  withheld: Uint8Array;
  /** Fewest populations of a cell that may be shown. */
  k: number;
  ties: Ties;
  /** True where every published cell of the linked tables may move: a need that fails here can never be met. */
  everything: boolean;
}

/** One way to protect a block. */
interface Choice {
  withheld: number[];
  /** Cells withheld for others. */
  added: number;
  loss: number;
  /** Cells whose needs cannot be granted inside the block. */
  left: number[];
}

/**
 * Withholds cells of one block until all needs are granted that can be inside it: the same block, the same answer.
 *
 * @returns cells whose needs cannot be granted inside the block
 * @throws UnprotectedCell where everything may move and a protection is impossible
 */
export function settleBlock(highs: Highs, block: Block, setting: Setting): number[] {
  return new Settling(highs, block, setting).run();
}

/** Works on one block and changes the shared `withheld`. */
class Settling {
  private readonly table: LinkedTable;
  private readonly primary: Uint8Array;
  private readonly withheld: Uint8Array;
  private readonly k: number;
  private readonly ties: Ties;
  private readonly everything: boolean;
  private readonly model: ShiftModel;
  /** Needs that are granted, with the complementary units that their shift uses. */
  private readonly granted = new Map<string, Set<number>>();
  private readonly failed = new Map<string, number>();
  private readonly isBound: boolean;
  /** For each unit its needs: where larger cells leave its outcome open, and where they say it. */
  private readonly needsKnown = new Map<number, Need[]>();
  /** Shifts found so far, with the units that each moves: another truth stays one, whatever is withheld. */
  private readonly found: { shift: Shift; moved: number[] }[] = [];
  /** Which of the attempts is made: each prices cells otherwise. */
  private attempt = 0;
  private programs = 0;

  constructor(
    highs: Highs,
    private readonly block: Block,
    { table, primary, withheld, k, ties, everything }: Setting,
  ) {
    this.table = table;
    this.primary = primary;
    this.withheld = withheld;
    this.k = k;
    this.ties = ties;
    this.everything = everything;
    this.isBound = ties.standing.some((look) => look !== null);
    const units = block.units.map((cells) => unitOf(table.cells, cells));
    this.model = new ShiftModel(highs, units, block.sums);
  }

  run(): number[] {
    try {
      return this.best().left;
    } finally {
      this.model.dispose();
    }
  }

  /** A sequence of programs ends where the order of its prices leads it: several are tried, and the least loss is kept. */
  private best(): Choice {
    const cells = this.block.units.flat();
    const before = cells.map((cell) => this.withheld[cell]!);
    const set = (to: readonly number[]) => {
      for (const [i, cell] of cells.entries()) this.withheld[cell] = to[i]!;
    };
    const attempts = this.everything || this.block.units.length > LARGE_BLOCK ? 1 : ATTEMPTS;
    let best: Choice | null = null;
    for (this.attempt = 0; this.attempt < attempts; this.attempt++) {
      set(before);
      const choice = this.choose(cells, before);
      if (best === null || choice.loss < best.loss) best = choice;
      if (choice.left.length > 0 || choice.added < 2 || this.programs >= ENOUGH_PROGRAMS) break;
    }
    set(best!.withheld);
    return best!;
  }

  private choose(cells: readonly number[], before: readonly number[]): Choice {
    this.granted.clear();
    this.failed.clear();
    for (let unit = 0; unit < this.block.units.length; unit++) this.model.setPrice(unit, this.priceOf(unit));
    this.grantAll();
    this.cleanUp();
    const withheld = cells.map((cell) => this.withheld[cell]!);
    const added = cells.filter((_, i) => withheld[i] === 1 && before[i] === 0);
    return {
      withheld,
      added: added.length,
      loss: added.reduce((sum, cell) => sum + lossOf(this.table.cells[cell]!), 0),
      left: [...this.failed.values()].flatMap((unit) => this.block.units[unit]!),
    };
  }

  private grantAll(): void {
    for (;;) {
      const open = this.openNeeds();
      if (open.length === 0) return;
      const hardest = this.hardest(open);
      const known = this.knownShift(hardest);
      if (known) {
        this.remember(known, hardest, open);
        continue;
      }
      const first = this.cheapest(hardest);
      if (!first) {
        this.giveUp(hardest);
        continue;
      }
      const shift = this.withFewerCells(hardest, first);
      for (let unit = 0; unit < shift.moved.length; unit++) {
        if (shift.moved[unit]! > MOVED && !this.isWithheld(unit)) this.withhold(unit, 1);
      }
      this.remember(shift, hardest, open);
    }
  }

  /**
   * A need that fails among fine cells waits for the coarse ones. Where every cell may move, public zeros alone forbid
   * so low a count (a window with three screened seasons holds three): the least that they leave is one more. Beside
   * earlier releases a need may be beyond reach, as a total once shown bounds its parts: the audit says what was possible.
   */
  private giveUp({ key, unit, wishes, isEarlier, mayFail }: Need): void {
    const cells = this.block.units[unit]!;
    if (isEarlier || (this.everything && (this.isBound || mayFail))) this.granted.set(key, new Set());
    else if (!this.everything) this.failed.set(key, unit);
    else if (wishes[0]!.quantity === 'tested' && wishes[0]!.sense === 'at most' && cells.length === 1)
      this.raiseLeast(cells[0]!, wishes[0]!.value + 1);
    else
      throw new UnprotectedCell(
        cells[0]!,
        `no shift grants "${key}" although every cell that may be withheld moves`,
      );
  }

  private raiseLeast(cell: number, least: number): void {
    this.table.least[cell] = least;
    this.needsKnown.clear();
  }

  private openNeeds(): Need[] {
    return this.needs().filter((need) => {
      if (this.granted.has(need.key) || this.failed.has(need.key)) return false;
      if (this.distance(need) > 0) return true;
      this.granted.set(need.key, new Set());
      return false;
    });
  }

  private needs(): Need[] {
    return this.block.units.flatMap((cells, unit) =>
      this.isWithheld(unit) ? this.needsOf(cells, unit) : [],
    );
  }

  private needsOf(cells: number[], unit: number): Need[] {
    const says = (cell: number) => this.withheld[cell] === 0 && isUnanimous(this.table.cells[cell]!);
    const settled = isSettled(this.table, cells[0]!, says);
    const key = unit * 2 + (settled ? 1 : 0);
    const known = this.needsKnown.get(key);
    if (known) return known;
    const needs = [...this.needsOfUnit(cells, unit, settled), ...this.needsOfSenders(cells, unit)];
    this.needsKnown.set(key, needs);
    return needs;
  }

  /** Of what is not the sender's own in the cell, another count must be possible: one more or one less. */
  private needsOfSenders(cells: number[], unit: number): Need[] {
    return this.ties.senders.flatMap((need, s): Need[] => {
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

  private needsOfUnit(cells: number[], unit: number, settled: boolean): Need[] {
    const members = cells.map((cell) => ({
      cell: this.table.cells[cell]!,
      least: this.table.least[cell]!,
      primary: this.primary[cell] === 1,
      earlier: this.ties.earlier[cell]!,
    }));
    return needsOf(unit, members, settled, this.k);
  }

  private hardest(needs: readonly Need[]): Need {
    return needs.reduce((a, b) => (this.distance(b) > this.distance(a) ? b : a));
  }

  /** How far the truth is from granting the need. */
  private distance({ wishes }: Need): number {
    const distances = wishes.map((wish) => {
      const difference = wish.value - this.model.truthOf(wish);
      return wish.sense === 'at least' ? difference : -difference;
    });
    return Math.min(...distances);
  }

  private keep(shift: Shift): void {
    const moved = [...shift.moved.keys()].filter((unit) => shift.moved[unit]! > MOVED);
    this.found.push({ shift, moved });
    if (this.found.length > MOST_FOUND) this.found.shift();
  }

  /** A shift that was found for another need, or in another attempt, moves withheld cells alone, and grants this one. */
  private knownShift({ wishes, floors = [] }: Need): Shift | null {
    for (let i = this.found.length - 1; i >= 0; i--) {
      const { shift, moved } = this.found[i]!;
      if (!moved.every((unit) => this.isWithheld(unit))) continue;
      if (wishes.some((wish) => this.model.grants(shift, wish)) && this.model.respects(shift, floors))
        return shift;
    }
    return null;
  }

  private cheapest({ wishes, floors }: Need): Shift | null {
    let best: Shift | null = null;
    for (const wish of wishes) {
      const shift = this.model.grant(wish, floors);
      this.programs += 1;
      if (shift) this.keep(shift);
      if (shift && (best === null || shift.cost < best.cost)) best = shift;
      if (best && !this.movesPublished(best)) break;
    }
    return best;
  }

  /**
   * A linear program pays for each population that moves, while a cell once withheld is withheld whole. So the need is
   * asked for again at prices for which the last answer would have paid each cell's loss once, and the answer that
   * withholds least is taken.
   */
  private withFewerCells(need: Need, first: Shift): Shift {
    let [best, least] = [first, this.newLoss(first)];
    let last = first;
    const repriced = new Set<number>();
    for (let round = 0; round < REPRICINGS && least > 0; round++) {
      for (let unit = 0; unit < last.moved.length; unit++) {
        if (last.moved[unit]! <= MOVED || this.isWithheld(unit)) continue;
        this.model.setCost(unit, (this.priceOf(unit) * UNMOVED) / last.moved[unit]!);
        repriced.add(unit);
      }
      const next = this.cheapest(need);
      if (!next) break;
      const loss = this.newLoss(next);
      if (loss < least) [best, least] = [next, loss];
      last = next;
    }
    for (const unit of repriced) this.model.setCost(unit, this.priceOf(unit));
    return best;
  }

  /** Loss of the cells that this shift would withhold anew. */
  private newLoss({ moved }: Shift): number {
    let loss = 0;
    for (let unit = 0; unit < moved.length; unit++) {
      if (moved[unit]! > MOVED && !this.isWithheld(unit)) loss += this.lossOfUnit(unit);
    }
    return loss;
  }

  private lossOfUnit(unit: number): number {
    return lossOf(this.table.cells[this.block.units[unit]![0]!]!);
  }

  private movesPublished({ moved }: Shift): boolean {
    return moved.some((movement, unit) => movement > MOVED && !this.isWithheld(unit));
  }

  private remember(shift: Shift, solved: Need, others: Need[]): void {
    const used = new Set<number>();
    for (const [unit, movement] of shift.moved.entries()) {
      if (movement > MOVED && this.isComplementary(unit)) used.add(unit);
    }
    this.granted.set(solved.key, used);
    for (const need of others) {
      const isGranted = need.wishes.some((wish) => this.model.grants(shift, wish));
      if (isGranted && this.model.respects(shift, need.floors ?? [])) this.granted.set(need.key, used);
    }
  }

  private cleanUp(): void {
    if (this.failed.size > 0) return;
    const complementary = this.block.units
      .map((_, unit) => unit)
      .filter((unit) => this.isComplementary(unit) && !this.stays(unit));
    if (complementary.length === 0) return;
    for (let unit = 0; unit < this.block.units.length; unit++) {
      if (!this.isWithheld(unit)) this.model.setPrice(unit, Number.POSITIVE_INFINITY);
    }
    const loss = (unit: number) => this.lossOfUnit(unit);
    for (const unit of complementary.sort((a, b) => loss(b) - loss(a) || a - b)) this.tryToOpen(unit);
  }

  private tryToOpen(unit: number): void {
    this.withhold(unit, 0);
    this.model.setPrice(unit, Number.POSITIVE_INFINITY);
    const before = new Map(this.granted);
    for (const [key, used] of before) if (used.has(unit)) this.granted.delete(key);
    for (;;) {
      const open = this.openNeeds();
      if (open.length === 0) return;
      const hardest = this.hardest(open);
      const shift = this.knownShift(hardest) ?? this.cheapest(hardest);
      if (!shift) break;
      this.remember(shift, hardest, open);
    }
    this.granted.clear();
    for (const [key, used] of before) this.granted.set(key, used);
    this.withhold(unit, 1);
  }

  private withhold(unit: number, to: 0 | 1): void {
    for (const cell of this.block.units[unit]!) this.withheld[cell] = to;
    this.model.setPrice(unit, this.priceOf(unit));
  }

  private priceOf(unit: number): number {
    const loss = this.lossOfUnit(unit) * leaning(unit, this.attempt);
    if (!this.isWithheld(unit)) return loss;
    return this.isComplementary(unit) ? loss * USED_AGAIN : 0;
  }

  private isWithheld(unit: number): boolean {
    return this.withheld[this.block.units[unit]![0]!] === 1;
  }

  private stays(unit: number): boolean {
    return this.block.units[unit]!.some((cell) => this.ties.standing[cell] === 'withheld');
  }

  private isComplementary(unit: number): boolean {
    return this.isWithheld(unit) && this.block.units[unit]!.every((cell) => this.primary[cell] === 0);
  }
}
