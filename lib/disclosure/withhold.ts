import type { Highs } from 'highs';
import type { Cell } from '@/lib/cube/types';
import { type Block, blocksOf } from './blocks';
import { isWhole } from './cell-order';
import type { LinkedTable } from './linked-table';
import { type Need, needsOf } from './needs';
import { type Quantity, type Shift, ShiftModel, type Triple } from './shift-model';
import type { EarlierValue } from './standing';

/** Loss of information when a cell is withheld, before its size counts: fine cells first, states last. */
const GRAIN_LOSS = { county: 1, area: 1, district: 4, state: 60, region: 400 } as const;
const MOVED = 1e-6;
/** A cell that only protects others costs a little when used again, so that the clean-up finds what is not needed. */
const USED_AGAIN = 0.001;
/** How often a need is asked for again at other prices. */
const REPRICINGS = 3;
/** A cell that the last answer did not move keeps its price, as if it had moved by this much. */
const UNMOVED = 0.5;

/** What one sender would know of the others in a withheld cell, as the audit found: it must be left open. */
export interface SenderNeed {
  cell: number;
  quantity: Exclude<Quantity, 'tested'>;
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

/**
 * Complementary withholding for one pair: adds cells to `withheld` until no sum tells a reader more than allowed.
 *
 * Sequential linear programs: for each need that no known shift grants, the cheapest shift names the cells to withhold;
 * then a clean-up re-opens, most costly first, each cell whose needs can be granted without it. Counties, districts and
 * designs are tried first; states and the region only for needs that cannot be granted otherwise.
 *
 * @param primary for each cell 1 where the primary rule withholds it
 * What an earlier release showed stays shown, what it withheld stays withheld.
 *
 * @param k fewest populations of a cell that may be shown
 * @returns for each cell 1 where it is withheld
 * @throws UnprotectedCell where cells that must stay shown make a protection impossible
 */
export function withholdComplementary(
  highs: Highs,
  table: LinkedTable,
  primary: Uint8Array,
  k: number,
  ties: Ties = free(table),
): Uint8Array {
  const withheld = primary.map((flag, i) => (flag === 1 || ties.standing[i] === 'withheld' ? 1 : 0));
  const apart = new Set([
    ...ties.earlier.flatMap((values, i) => (values.length > 0 ? [i] : [])),
    ...ties.senders.flatMap(({ cell, own }) => [cell, ...own.keys()]),
  ]);
  const movable = (cell: number) => ties.standing[cell] !== 'shown';
  const fine = (cell: number) => isFine(table.cells[cell]!) && movable(cell);
  const settle = (block: Block, everything: boolean) =>
    new Settling(highs, table, block, primary, withheld, k, everything, ties).run();
  const left = new Set<number>();
  for (const block of blocksOf(table, withheld, fine, [], apart)) {
    for (const cell of settle(block, false)) left.add(cell);
  }
  if (left.size === 0) return withheld;
  for (const block of blocksOf(table, withheld, movable, [], apart)) {
    if (block.units.some((cells) => cells.some((cell) => left.has(cell)))) settle(block, true);
  }
  return withheld;
}

function free({ cells }: LinkedTable): Ties {
  return { standing: cells.map(() => null), earlier: cells.map(() => []), senders: [] };
}

/** Loss of information when this cell is withheld. */
function lossOf(cell: Pick<Cell, 'placeKind' | 'tested' | 'design' | 'part'>): number {
  return (isWhole(cell) ? GRAIN_LOSS[cell.placeKind] : 0.5) * (1 + Math.log2(1 + cell.tested));
}

/** True where a published 0 or all of n in a larger published cell (or sentence) says the outcome of this one. */
export function isSettled(table: LinkedTable, cell: number, says: (cell: number) => boolean): boolean {
  return says(cell) || table.totalsOf[cell]!.some((total) => isSettled(table, total, says));
}

export function isUnanimous({ resistant, tested }: Cell): boolean {
  return resistant === 0 || resistant === tested;
}

function isFine(cell: Cell): boolean {
  return !isWhole(cell) || (cell.placeKind !== 'state' && cell.placeKind !== 'region');
}

/** Works on one block and changes the shared `withheld`. */
class Settling {
  private readonly model: ShiftModel;
  /** Needs that are granted, with the complementary units that their shift uses. */
  private readonly granted = new Map<string, Set<number>>();
  private readonly failed = new Map<string, number>();
  private readonly isBound: boolean;

  constructor(
    highs: Highs,
    private readonly table: LinkedTable,
    private readonly block: Block,
    private readonly primary: Uint8Array,
    private readonly withheld: Uint8Array,
    private readonly k: number,
    /** True where every published cell of the linked tables may move: a need that fails here can never be met. */
    private readonly everything: boolean,
    private readonly ties: Ties,
  ) {
    this.isBound = ties.standing.some((look) => look !== null);
    const units = block.units.map((cells) => unitOf(table.cells, cells));
    this.model = new ShiftModel(highs, units, block.sums);
    for (let unit = 0; unit < units.length; unit++) this.model.setPrice(unit, this.priceOf(unit));
  }

  /** @returns cells whose needs cannot be granted inside the block */
  run(): number[] {
    try {
      this.grantAll();
      this.cleanUp();
      return [...this.failed.values()].flatMap((unit) => this.block.units[unit]!);
    } finally {
      this.model.dispose();
    }
  }

  private grantAll(): void {
    for (;;) {
      const open = this.openNeeds();
      if (open.length === 0) return;
      const hardest = open.reduce((a, b) => (this.distance(b) > this.distance(a) ? b : a));
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
  private giveUp({ key, unit, wishes, isEarlier }: Need): void {
    const cells = this.block.units[unit]!;
    if (isEarlier || (this.everything && this.isBound)) this.granted.set(key, new Set());
    else if (!this.everything) this.failed.set(key, unit);
    else if (wishes[0]!.quantity === 'tested' && wishes[0]!.sense === 'at most' && cells.length === 1)
      this.table.least[cells[0]!] = wishes[0]!.value + 1;
    else
      throw new UnprotectedCell(
        cells[0]!,
        `no shift grants "${key}" although every cell that may be withheld moves`,
      );
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
      this.isWithheld(unit) ? [...this.needsOfUnit(cells, unit), ...this.needsOfSenders(cells, unit)] : [],
    );
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
      return [{ key: `sender ${s} ${unit} ${quantity}`, unit, wishes, floors }];
    });
  }

  private needsOfUnit(cells: number[], unit: number): Need[] {
    const members = cells.map((cell) => ({
      cell: this.table.cells[cell]!,
      least: this.table.least[cell]!,
      primary: this.primary[cell] === 1,
      earlier: this.ties.earlier[cell]!,
    }));
    const says = (cell: number) => this.withheld[cell] === 0 && isUnanimous(this.table.cells[cell]!);
    return needsOf(unit, members, isSettled(this.table, cells[0]!, says), this.k);
  }

  /** How far the truth is from granting the need. */
  private distance({ wishes }: Need): number {
    const distances = wishes.map((wish) => {
      const difference = wish.value - this.model.truthOf(wish);
      return wish.sense === 'at least' ? difference : -difference;
    });
    return Math.min(...distances);
  }

  private cheapest({ wishes, floors }: Need): Shift | null {
    let best: Shift | null = null;
    for (const wish of wishes) {
      const shift = this.model.grant(wish, floors);
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
      const hardest = open.reduce((a, b) => (this.distance(b) > this.distance(a) ? b : a));
      const shift = this.cheapest(hardest);
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
    const loss = this.lossOfUnit(unit);
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

/** Cells taken together as one unit of the model. */
export function unitOf(cells: readonly Cell[], members: readonly number[]) {
  const counts: [number, number, number] = [0, 0, 0];
  for (const member of members) {
    const cell = cells[member]!;
    counts[0] += cell.resistant;
    counts[1] += cell.someSurvivors;
    counts[2] += cell.susceptible;
  }
  return { counts, least: members.length };
}
