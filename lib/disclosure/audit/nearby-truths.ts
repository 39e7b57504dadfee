import type { Highs, Model } from 'highs';
import type { Terms } from './attacker';
import type { Component, LinearSystem, Row } from './linear-system';

/** Another truth, as what it changes by column. */
export type Move = ReadonlyMap<number, number>;

/** Counts that a reader knows to be in some columns, at least. */
export type Floors = ReadonlyMap<number, number>;

const TINY = 1e-6;

/**
 * Other truths that a reader of one component holds possible, as near to the real one as can be: moving any count by one costs
 * one, so that a move touches few cells, and few readers can say that it is not so. Lives in WebAssembly memory:
 * `dispose()` it.
 *
 * Columns: more and less of each unknown. Rows: those of the component as differences from the truth, then one for each
 * quantity. Warm dual simplex: a question changes bounds only.
 */
export class NearbyTruths {
  programs = 0;
  private readonly model: Model;
  private readonly place: Map<number, number>;
  private readonly firstQuantity: number;

  /**
   * @param truth by column of the whole system
   * @throws Error where the truth does not fit the rows: then nothing can be said of moves from it
   */
  constructor(
    private readonly highs: Highs,
    private readonly system: LinearSystem,
    private readonly component: Component,
    private readonly truth: ArrayLike<number>,
    quantities: readonly Terms[],
  ) {
    const { columns, rows } = component;
    this.place = new Map(columns.map((column, i) => [column, i]));
    this.firstQuantity = rows.length;
    const differences = [
      ...rows.map((row) => this.difference(row)),
      ...quantities.map((terms) => this.difference(quantityRow(terms))),
    ];
    const starts = [0];
    for (const row of differences) starts.push(starts.at(-1)! + 2 * row.columns.length);
    const limit = (bound: number) =>
      Number.isFinite(bound) ? bound : bound > 0 ? highs.infinity : -highs.infinity;
    this.model = highs.createModel({
      numCols: 2 * columns.length,
      numRows: differences.length,
      colCost: new Float64Array(2 * columns.length).fill(1),
      colLower: new Float64Array(2 * columns.length),
      colUpper: columns.flatMap((column) => [
        limit(system.upper[column]! - truth[column]!),
        this.room(column, system.lower[column]!),
      ]),
      rowLower: differences.map(({ low }) => limit(low)),
      rowUpper: differences.map(({ high }) => limit(high)),
      matrix: {
        format: 'csr',
        numRows: differences.length,
        numCols: 2 * columns.length,
        starts,
        indices: differences.flatMap((row) =>
          row.columns.flatMap((column) => [2 * this.place.get(column)!, 2 * this.place.get(column)! + 1]),
        ),
        values: differences.flatMap((row) =>
          row.coefficients.flatMap((coefficient) => [coefficient, -coefficient]),
        ),
      },
    });
    this.model.options.set({ output_flag: false, presolve: 'off', solver: 'simplex', simplex_strategy: 1 });
  }

  /**
   * The nearest truth in which a quantity is larger (1) or smaller (−1) by one at least, or null where there is none.
   *
   * @param floors none for a reader who knows nothing of his own
   * @throws Error where the solver cannot tell
   */
  nearest(quantity: number, sense: 1 | -1, floors: Floors = new Map()): Move | null {
    const row = this.firstQuantity + quantity;
    for (const [column, floor] of floors) this.setFloor(column, floor);
    this.model.changeRowBounds(
      row,
      sense === 1 ? 1 : -this.highs.infinity,
      sense === 1 ? this.highs.infinity : -1,
    );
    const move = this.isFound() ? this.read() : null;
    this.model.changeRowBounds(row, -this.highs.infinity, this.highs.infinity);
    for (const column of floors.keys()) this.setFloor(column, 0);
    return move;
  }

  dispose(): void {
    this.model.dispose();
  }

  /** @throws Error where the solver cannot tell: neither answer would be safe. */
  private isFound(): boolean {
    const { optimal, infeasible } = this.highs.constants.modelStatus;
    for (const isAgain of [false, true]) {
      if (isAgain) this.model.clearSolver();
      this.model.run();
      this.programs += 1;
      const status = this.model.getModelStatus();
      if (status === optimal || status === infeasible) return status === optimal;
    }
    throw new Error(
      'the solver could not tell whether a sender knows a withheld count: draft the release again.',
    );
  }

  private setFloor(column: number, floor: number): void {
    const at = this.place.get(column);
    if (at === undefined) return;
    this.model.changeColBounds(2 * at + 1, 0, this.room(column, Math.max(floor, this.system.lower[column]!)));
  }

  private room(column: number, floor: number): number {
    const room = this.truth[column]! - floor;
    if (room < -TINY || this.truth[column]! > this.system.upper[column]! + TINY) throw unfitting();
    return Math.max(0, room);
  }

  /** A row in changes: columns that are fixed drop out, and the bounds are what the truth leaves. */
  private difference({ columns, coefficients, low, high }: Row): Row {
    const value = columns.reduce((sum, column, i) => sum + coefficients[i]! * this.truth[column]!, 0);
    if (value < low - TINY || value > high + TINY) throw unfitting();
    const free = columns.flatMap((column, i) =>
      this.place.has(column) ? [[column, coefficients[i]!] as const] : [],
    );
    return {
      columns: free.map(([column]) => column),
      coefficients: free.map(([, coefficient]) => coefficient),
      low: Math.min(0, low - value),
      high: Math.max(0, high - value),
    };
  }

  private read(): Move {
    const values = this.model.getSolution().colValue;
    const move = new Map<number, number>();
    for (const [i, column] of this.component.columns.entries()) {
      const change = values[2 * i]! - values[2 * i + 1]!;
      if (Math.abs(change) > TINY) move.set(column, change);
    }
    return move;
  }
}

function quantityRow(terms: Terms): Row {
  return {
    columns: terms.map(([column]) => column),
    coefficients: terms.map(([, coefficient]) => coefficient),
    low: -Infinity,
    high: Infinity,
  };
}

function unfitting(): Error {
  return new Error(
    'the private counts do not fit what the releases say: audit the releases before their senders are asked.',
  );
}
