import type { Highs } from 'highs';
import { BlockNeeds, type DistantNeed } from './block-needs';
import type { Block } from './blocks';
import { type CellShift, KnownShifts, toCells, toUnits } from './known-shifts';
import type { LinkedTable } from './linked-table';
import { leaning, lossOf } from './loss';
import type { Need } from './needs';
import { type Shift, ShiftModel, unitOf } from './shift-model';
import type { Ties } from './ties';

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
  /** Shifts that granted needs in smaller blocks of these cells. */
  carried: readonly CellShift[];
}

/** What a block came to; which cells are withheld stands in `withheld`. */
export interface BlockEnd {
  /** Cells whose needs cannot be granted inside the block. */
  left: number[];
  /** Shifts that grant the others. */
  shifts: CellShift[];
}

/** One way to protect a block. */
interface Choice {
  withheld: number[];
  /** Cells withheld for others. */
  added: number;
  loss: number;
  end: BlockEnd;
}

/**
 * Withholds cells of one block until all needs are granted that can be inside it: the same block, the same answer.
 *
 * @throws UnprotectedCell where everything may move and a protection is impossible
 */
export function settleBlock(highs: Highs, block: Block, setting: Setting): BlockEnd {
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
  /** By key the needs that are granted, with the shift that does it; null where nothing ever will. */
  private granted = new Map<string, { need: DistantNeed; shift: Shift | null }>();
  private readonly failed = new Map<string, number>();
  private readonly isBound: boolean;
  private readonly needs: BlockNeeds;
  /** Needs of all units that are withheld now; null once others are. */
  private needsNow: DistantNeed[] | null = null;
  private readonly found = new KnownShifts();
  private readonly carried: Shift[];
  /** For each unit the sums in which it stands, each with all its units. */
  private readonly sumsOf: number[][][];
  /** Which of the attempts is made: each prices cells otherwise. */
  private attempt = 0;
  private programs = 0;

  constructor(
    highs: Highs,
    private readonly block: Block,
    { table, primary, withheld, k, ties, everything, carried }: Setting,
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
    this.needs = new BlockNeeds(block, this.model, { table, primary, withheld, k, ties });
    const unitOfCell = new Map(block.units.flatMap((cells, unit) => cells.map((cell) => [cell, unit])));
    this.carried = carried.flatMap((shift) => toUnits(shift, unitOfCell) ?? []);
    for (const shift of this.carried) this.found.add(shift);
    this.sumsOf = block.units.map(() => []);
    for (const { total, parts } of block.sums) {
      const members = total === null ? parts : [total, ...parts];
      for (const unit of members) this.sumsOf[unit]!.push(members);
    }
  }

  run(): BlockEnd {
    try {
      return this.best().end;
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
      this.needsNow = null;
    };
    const attempts = this.everything || this.block.units.length > LARGE_BLOCK ? 1 : ATTEMPTS;
    let best: Choice | null = null;
    for (this.attempt = 0; this.attempt < attempts; this.attempt++) {
      set(before);
      const choice = this.choose(cells, before);
      if (best === null || choice.loss < best.loss) best = choice;
      if (choice.end.left.length > 0 || choice.added < 2 || this.programs >= ENOUGH_PROGRAMS) break;
    }
    set(best!.withheld);
    return best!;
  }

  private choose(cells: readonly number[], before: readonly number[]): Choice {
    this.granted = new Map();
    this.failed.clear();
    for (let unit = 0; unit < this.block.units.length; unit++) this.model.setPrice(unit, this.priceOf(unit));
    for (const shift of this.carried) this.grantCarried(shift);
    this.grantAll();
    this.cleanUp();
    const withheld = cells.map((cell) => this.withheld[cell]!);
    const added = cells.filter((_, i) => withheld[i] === 1 && before[i] === 0);
    return {
      withheld,
      added: added.length,
      loss: added.reduce((sum, cell) => sum + lossOf(this.table.cells[cell]!), 0),
      end: {
        left: [...this.failed.values()].flatMap((unit) => this.block.units[unit]!),
        shifts: [...new Set([...this.granted.values()].map(({ shift }) => shift))].flatMap((shift) =>
          shift ? [toCells(shift, this.block.units)] : [],
        ),
      },
    };
  }

  private grantCarried(shift: Shift): void {
    if (!this.movesWithheldOnly(shift)) return;
    for (const unit of shift.moves.keys()) {
      for (const need of this.needs.of(unit))
        if (need.distance > 0 && !this.granted.has(need.key) && this.doesGrant(shift, need))
          this.grant(need, shift);
    }
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
      for (const unit of shift.moves.keys()) if (!this.isWithheld(unit)) this.withhold(unit, 1);
      this.remember(shift, hardest, open);
    }
  }

  /**
   * A need that fails among fine cells waits for the coarse ones. Where every cell may move, public zeros alone forbid
   * so low a count (a window with three screened seasons holds three): the least that they leave is one more. Beside
   * earlier releases a need may be beyond reach, as a total once shown bounds its parts: the audit says what was possible.
   */
  private giveUp(need: DistantNeed): void {
    const { key, unit, wishes, isEarlier, mayFail } = need;
    const cells = this.block.units[unit]!;
    if (isEarlier || (this.everything && (this.isBound || mayFail))) this.grant(need, null);
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
    this.needs.forget();
    this.needsNow = null;
  }

  private openNeeds(): DistantNeed[] {
    this.needsNow ??= this.block.units.flatMap((_, unit) =>
      this.isWithheld(unit) ? this.needs.of(unit) : [],
    );
    return this.needsNow.filter(
      ({ key, distance }) => distance > 0 && !this.granted.has(key) && !this.failed.has(key),
    );
  }

  private hardest(needs: readonly DistantNeed[]): DistantNeed {
    return needs.reduce((a, b) => (b.distance > a.distance ? b : a));
  }

  /** A shift that was found for another need, or in another attempt, moves withheld cells alone, and grants this one. */
  private knownShift(need: Need): Shift | null {
    return this.found.find(
      need.unit,
      (shift) => this.movesWithheldOnly(shift) && this.doesGrant(shift, need),
    );
  }

  private cheapest({ wishes, floors }: Need): Shift | null {
    let best: Shift | null = null;
    for (const wish of wishes) {
      const shift = this.model.grant(wish, floors);
      this.programs += 1;
      if (shift) this.found.add(shift);
      if (shift && (best === null || shift.cost < best.cost)) best = shift;
      if (best && this.movesWithheldOnly(best)) break;
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
      for (const [unit, { most }] of last.moves) {
        if (this.isWithheld(unit)) continue;
        this.model.setCost(unit, (this.priceOf(unit) * UNMOVED) / most);
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
  private newLoss({ moves }: Shift): number {
    let loss = 0;
    for (const unit of moves.keys()) if (!this.isWithheld(unit)) loss += this.lossOfUnit(unit);
    return loss;
  }

  private lossOfUnit(unit: number): number {
    return lossOf(this.table.cells[this.block.units[unit]![0]!]!);
  }

  private movesWithheldOnly({ moves }: Shift): boolean {
    for (const unit of moves.keys()) if (!this.isWithheld(unit)) return false;
    return true;
  }

  private doesGrant(shift: Shift, { unit, wishes, floors = [] }: Need): boolean {
    return (
      shift.moves.has(unit) &&
      wishes.some((wish) => this.model.grants(shift, wish)) &&
      this.model.respects(shift, floors)
    );
  }

  private remember(shift: Shift, solved: DistantNeed, others: readonly DistantNeed[]): void {
    this.grant(solved, shift);
    for (const need of others) if (this.doesGrant(shift, need)) this.grant(need, shift);
  }

  private grant(need: DistantNeed, shift: Shift | null): void {
    this.granted.set(need.key, { need, shift });
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

  /** Shows a unit again where all needs that its movement granted can be granted without it. */
  private tryToOpen(unit: number): void {
    this.withhold(unit, 0);
    this.model.setPrice(unit, Number.POSITIVE_INFINITY);
    const before = [...this.granted.values()].filter(({ shift }) => shift?.moves.has(unit));
    for (const { need } of before) this.granted.delete(need.key);
    let open = before.map(({ need }) => need).filter((need) => this.isStillNeeded(need));
    let isPossible = !open.some((need) => this.isAlone(need.unit));
    while (isPossible && open.length > 0) {
      const hardest = this.hardest(open);
      const shift = this.knownShift(hardest) ?? this.cheapest(hardest);
      if (shift) this.remember(shift, hardest, open);
      else isPossible = false;
      open = open.filter(({ key }) => !this.granted.has(key));
    }
    if (isPossible) return;
    for (const one of before) this.granted.set(one.need.key, one);
    this.withhold(unit, 1);
  }

  /** What is shown may say the outcome of others, of which less is asked then. */
  private isStillNeeded({ unit, key }: Need): boolean {
    return this.isWithheld(unit) && this.needs.of(unit).some((need) => need.key === key);
  }

  /** True where all others of a sum are shown: the unit is what they leave. */
  private isAlone(unit: number): boolean {
    return this.sumsOf[unit]!.some((sum) => sum.every((other) => other === unit || !this.isWithheld(other)));
  }

  private withhold(unit: number, to: 0 | 1): void {
    for (const cell of this.block.units[unit]!) this.withheld[cell] = to;
    this.needsNow = null;
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
