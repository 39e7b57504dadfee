import type { Highs, Model } from 'highs';
import type { Cell } from '@/lib/cube/types';

/** Resistant, some survivors, susceptible. */
export type Triple = readonly [number, number, number];

/** Cells that move together in the model: one cell, or exchangeable cells of one sum taken as their total. */
export interface Unit {
  counts: Triple;
  /** The reader knows that at least so many were tested: one for each cell of the unit. */
  least: number;
}

/** A public sentence about the resistant of some units together: their sum is ≥ 1 (confirmed) or 0 (none). */
export interface Sentence {
  units: number[];
  confirmed: boolean;
}

export type Quantity = 'tested' | 'resistant' | 'not resistant';

/** Asks for another truth in which a quantity of a unit (or of a sentence's units) is at least / at most a value. */
export interface Wish {
  subject: { unit: number } | { sentence: number };
  quantity: Quantity;
  sense: 'at least' | 'at most';
  value: number;
}

/** Counts of a unit that a reader knows to be in it, because he sent them: no other truth holds fewer. */
export interface Floor {
  unit: number;
  counts: Triple;
}

/** By how much another truth differs in one unit. */
export interface Movement {
  resistant: number;
  notResistant: number;
  /** Largest movement of any measure. */
  most: number;
}

/** Another truth that the public numbers allow, as differences from the truth. */
export interface Shift {
  cost: number;
  /** By unit; those that stay as they are stand not in it. */
  moves: ReadonlyMap<number, Movement>;
  /** How far each sentence would have to be broken. */
  broken: Float64Array;
}

const TINY = 1e-6;
const STAYS: Movement = { resistant: 0, notResistant: 0, most: 0 };

/**
 * Linear program over all other truths x + d ≥ 0 that keep every sum. Moving a unit costs its price for each
 * population, so the cheapest shift names the published cells that are worth withholding for a wish
 * (Kelly, Golden & Assad 1992; Fischetti & Salazar 2001 give the exact model that this one relaxes).
 *
 * Columns: d⁺, d⁻ of three measures by unit, then one slack by sentence. Rows: sums × 3, units × 3 quantities,
 * sentences × 2. The model lives in WebAssembly memory: `dispose()` it.
 */
export class ShiftModel {
  private readonly model: Model;
  private readonly rows: number;
  private readonly columns: number;
  private readonly optimal: number;
  private readonly infinity: number;
  private readonly price: Float64Array;
  private readonly heldFast: Uint8Array;

  constructor(
    highs: Highs,
    private readonly units: readonly Unit[],
    private readonly sums: readonly { total: number | null; parts: readonly number[] }[],
    private readonly sentences: readonly Sentence[] = [],
  ) {
    this.infinity = highs.infinity;
    this.optimal = highs.constants.modelStatus.optimal;
    this.columns = units.length * 6 + sentences.length;
    this.rows = sums.length * 3 + units.length * 3 + sentences.length * 2;
    this.price = new Float64Array(this.columns);
    this.heldFast = new Uint8Array(units.length);
    this.model = highs.createModel(this.build());
    this.model.options.set({ output_flag: false, presolve: 'off', solver: 'simplex' });
  }

  /** Price of moving a unit by one population; Infinity holds it fast. */
  setPrice(unit: number, price: number): void {
    const fast = price === Number.POSITIVE_INFINITY;
    this.heldFast[unit] = fast ? 1 : 0;
    for (let k = 0; k < 6; k++) {
      const column = unit * 6 + k;
      const measure = this.units[unit]!.counts[(k >> 1) as 0 | 1 | 2];
      const ceiling = k % 2 === 0 ? this.infinity : measure;
      this.model.changeColBounds(column, 0, fast ? 0 : ceiling);
      this.model.changeColCost(column, fast ? 0 : price);
      this.price[column] = fast ? 0 : price;
    }
  }

  /** Another price of a unit that is not held fast. */
  setCost(unit: number, price: number): void {
    for (let k = 0; k < 6; k++) {
      const column = unit * 6 + k;
      this.model.changeColCost(column, price);
      this.price[column] = price;
    }
  }

  /** Price of breaking a sentence; Infinity: it is public and cannot be broken; 0: it is not said. */
  setSentencePrice(sentence: number, price: number): void {
    const column = this.units.length * 6 + sentence;
    const fast = price === Number.POSITIVE_INFINITY;
    this.model.changeColBounds(column, 0, fast ? 0 : this.infinity);
    this.model.changeColCost(column, fast ? 0 : price);
    this.price[column] = fast ? 0 : price;
  }

  /**
   * The cheapest shift that grants the wish, or null where there is none.
   *
   * @param floors what the reader knows to be in some units
   */
  grant(wish: Wish, floors: readonly Floor[] = []): Shift | null {
    for (const { unit, counts } of floors) this.setFloor(unit, counts);
    const row = this.rowOf(wish);
    const bound = wish.value - this.truthOf(wish);
    const [low, high] = this.standing(row);
    if (wish.sense === 'at least') this.model.changeRowBounds(row, Math.max(bound, low), high);
    else this.model.changeRowBounds(row, low, Math.min(bound, high));
    this.model.run();
    const found = this.model.getModelStatus() === this.optimal;
    const shift = found ? this.read() : null;
    this.model.changeRowBounds(row, low, high);
    for (const { unit } of floors) this.setFloor(unit, [0, 0, 0]);
    return shift;
  }

  /** True where this shift leaves in every unit what the reader knows to be in it. */
  respects(shift: Shift, floors: readonly Floor[]): boolean {
    return floors.every(({ unit, counts: [resistant, someSurvivors, susceptible] }) => {
      const { counts } = this.units[unit]!;
      const moved = shift.moves.get(unit) ?? STAYS;
      const room = [counts[0] - resistant, counts[1] + counts[2] - someSurvivors - susceptible] as const;
      // Of the two results that are not resistant a shift keeps the sum only: where there is a floor, both must stay.
      const isStill = someSurvivors + susceptible === 0 || moved.notResistant >= -TINY;
      return moved.resistant >= -room[0] - TINY && moved.notResistant >= -room[1] - TINY && isStill;
    });
  }

  /** True where this shift grants the wish as well. */
  grants(shift: Shift, wish: Wish): boolean {
    const value = this.truthOf(wish) + this.movementOf(shift, wish);
    return wish.sense === 'at least' ? value >= wish.value - TINY : value <= wish.value + TINY;
  }

  /** The true value of the quantity that a wish is about. */
  truthOf({ subject, quantity }: Wish): number {
    if ('sentence' in subject)
      return this.sentences[subject.sentence]!.units.reduce((sum, u) => sum + this.units[u]!.counts[0], 0);
    const [resistant, someSurvivors, susceptible] = this.units[subject.unit]!.counts;
    if (quantity === 'resistant') return resistant;
    return someSurvivors + susceptible + (quantity === 'tested' ? resistant : 0);
  }

  dispose(): void {
    this.model.dispose();
  }

  private setFloor(unit: number, floor: Triple): void {
    if (this.heldFast[unit] === 1) return;
    const { counts } = this.units[unit]!;
    for (const measure of [0, 1, 2] as const)
      this.model.changeColBounds(unit * 6 + measure * 2 + 1, 0, counts[measure] - floor[measure]);
  }

  private movementOf({ moves }: Shift, { subject, quantity }: Wish): number {
    const of = (unit: number) => moves.get(unit) ?? STAYS;
    if ('sentence' in subject)
      return this.sentences[subject.sentence]!.units.reduce((sum, u) => sum + of(u).resistant, 0);
    const { resistant, notResistant } = of(subject.unit);
    if (quantity === 'tested') return resistant + notResistant;
    return quantity === 'resistant' ? resistant : notResistant;
  }

  private rowOf({ subject, quantity }: Wish): number {
    const units = this.sums.length * 3;
    if ('sentence' in subject) return units + this.units.length * 3 + subject.sentence * 2 + 1;
    return units + subject.unit * 3 + (quantity === 'tested' ? 0 : quantity === 'resistant' ? 1 : 2);
  }

  /** The bounds that a row has while no wish is made. */
  private standing(row: number): [number, number] {
    const unitRow = row - this.sums.length * 3;
    if (unitRow < 0) return [0, 0];
    if (unitRow < this.units.length * 3) {
      if (unitRow % 3 !== 0) return [-this.infinity, this.infinity];
      const { counts, least } = this.units[unitRow / 3]!;
      return [least - counts[0] - counts[1] - counts[2], this.infinity];
    }
    const sentenceRow = unitRow - this.units.length * 3;
    if (sentenceRow % 2 === 1) return [-this.infinity, this.infinity];
    const { units, confirmed } = this.sentences[sentenceRow / 2]!;
    const truth = units.reduce((sum, u) => sum + this.units[u]!.counts[0], 0);
    return confirmed ? [1 - truth, this.infinity] : [-this.infinity, 0];
  }

  private read(): Shift {
    const values = this.model.getSolution().colValue;
    const size = this.units.length;
    const moves = new Map<number, Movement>();
    let cost = 0;
    for (let column = 0; column < this.columns; column++) cost += values[column]! * this.price[column]!;
    for (let u = 0; u < size; u++) {
      const resistant = values[u * 6]! - values[u * 6 + 1]!;
      const someSurvivors = values[u * 6 + 2]! - values[u * 6 + 3]!;
      const susceptible = values[u * 6 + 4]! - values[u * 6 + 5]!;
      const most = Math.max(Math.abs(resistant), Math.abs(someSurvivors), Math.abs(susceptible));
      if (most > TINY) moves.set(u, { resistant, notResistant: someSurvivors + susceptible, most });
    }
    return { cost, moves, broken: values.slice(size * 6) };
  }

  private build() {
    const starts = [0];
    const indices: number[] = [];
    const values: number[] = [];
    const net = (unit: number, measure: number, sign: number) => {
      indices.push(unit * 6 + measure * 2, unit * 6 + measure * 2 + 1);
      values.push(sign, -sign);
    };
    const close = () => starts.push(indices.length);
    for (const { total, parts } of this.sums) {
      for (let measure = 0; measure < 3; measure++) {
        if (total !== null) net(total, measure, -1);
        for (const part of parts) net(part, measure, 1);
        close();
      }
    }
    for (let unit = 0; unit < this.units.length; unit++) {
      for (const measures of [[0, 1, 2], [0], [1, 2]]) {
        for (const measure of measures) net(unit, measure, 1);
        close();
      }
    }
    for (const [s, { units, confirmed }] of this.sentences.entries()) {
      for (const unit of units) net(unit, 0, 1);
      indices.push(this.units.length * 6 + s);
      values.push(confirmed ? 1 : -1);
      close();
      for (const unit of units) net(unit, 0, 1);
      close();
    }
    const bounds = Array.from({ length: this.rows }, (_, row) => this.standing(row));
    const ceilings = this.units.flatMap(({ counts }) => counts.flatMap((count) => [this.infinity, count]));
    return {
      numCols: this.columns,
      numRows: this.rows,
      colCost: new Float64Array(this.columns),
      colLower: new Float64Array(this.columns),
      colUpper: [...ceilings, ...this.sentences.map(() => this.infinity)],
      rowLower: bounds.map(([low]) => low),
      rowUpper: bounds.map(([, high]) => high),
      matrix: { format: 'csr' as const, numRows: this.rows, numCols: this.columns, starts, indices, values },
    };
  }
}

/** Cells taken together as one unit of the model. */
export function unitOf(cells: readonly Cell[], members: readonly number[]): Unit {
  const counts: [number, number, number] = [0, 0, 0];
  for (const member of members) {
    const cell = cells[member]!;
    counts[0] += cell.resistant;
    counts[1] += cell.someSurvivors;
    counts[2] += cell.susceptible;
  }
  return { counts, least: members.length };
}
