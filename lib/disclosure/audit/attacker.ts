import type { Highs, Model } from 'highs';
import type { Component, LinearSystem, Row } from './linear-system';

export type Terms = readonly (readonly [column: number, coefficient: number])[];

/** The end of a range, and a point of the system at which it is reached. Infinity where nothing holds it. */
export interface Extreme {
  value: number;
  /** Values by column of the whole system; columns outside the component keep their bounds' value. */
  point: Float64Array;
}

/**
 * One connected component of what a reader knows, as a linear program that is solved again and again with other
 * objectives (warm, primal simplex). Lives in WebAssembly memory: `dispose()` it.
 */
export class Attacker {
  programs = 0;
  private readonly model: Model;
  private readonly optimal: number;
  private readonly ceiling: number;
  private readonly columns: readonly number[];
  private readonly place: Map<number, number>;
  private priced: number[] = [];

  constructor(
    highs: Highs,
    private readonly system: LinearSystem,
    { columns, rows }: Component,
  ) {
    this.columns = columns;
    this.place = new Map(columns.map((column, i) => [column, i]));
    this.optimal = highs.constants.modelStatus.optimal;
    const moved = rows.map((row) => this.withoutFixed(row));
    const finite = moved.flatMap(({ low, high }) => [low, high]).filter(Number.isFinite);
    this.ceiling = 1000 + 4 * finite.reduce((sum, bound) => sum + Math.abs(bound), 0);
    const starts = [0];
    for (const row of moved) starts.push(starts.at(-1)! + row.columns.length);
    this.model = highs.createModel({
      numCols: columns.length,
      numRows: moved.length,
      colCost: new Float64Array(columns.length),
      colLower: columns.map((column) => system.lower[column]!),
      colUpper: columns.map((column) => Math.min(system.upper[column]!, this.ceiling)),
      rowLower: moved.map(({ low }) => (Number.isFinite(low) ? low : -highs.infinity)),
      rowUpper: moved.map(({ high }) => (Number.isFinite(high) ? high : highs.infinity)),
      matrix: {
        format: 'csr',
        numRows: moved.length,
        numCols: columns.length,
        starts,
        indices: moved.flatMap((row) => row.columns.map((column) => this.place.get(column)!)),
        values: moved.flatMap((row) => row.coefficients),
      },
    });
    this.model.options.set({ output_flag: false, presolve: 'off', solver: 'simplex', simplex_strategy: 4 });
  }

  /** Largest (1) or smallest (−1) value of an expression, or null where the system has no solution. */
  extreme(terms: Terms, sense: 1 | -1): Extreme | null {
    for (const column of this.priced) this.model.changeColCost(column, 0);
    this.priced = [];
    for (const [column, coefficient] of terms) {
      const at = this.place.get(column);
      if (at === undefined) continue;
      this.model.changeColCost(at, -sense * coefficient);
      this.priced.push(at);
    }
    this.model.run();
    this.programs += 1;
    if (this.model.getModelStatus() !== this.optimal) return null;
    const found = this.model.getSolution().colValue;
    const point = Float64Array.from(this.system.lower);
    for (const [i, column] of this.columns.entries()) point[column] = found[i]!;
    const value = valueAt(terms, point);
    return { value: value >= this.ceiling - 1 ? Number.POSITIVE_INFINITY : value, point };
  }

  dispose(): void {
    this.model.dispose();
  }

  private withoutFixed({ columns, coefficients, low, high }: Row): Row {
    const row: Row = { columns: [], coefficients: [], low, high };
    for (const [i, column] of columns.entries()) {
      if (this.place.has(column)) {
        row.columns.push(column);
        row.coefficients.push(coefficients[i]!);
        continue;
      }
      const fixed = coefficients[i]! * this.system.lower[column]!;
      row.low -= fixed;
      row.high -= fixed;
    }
    return row;
  }
}

export function valueAt(terms: Terms, point: ArrayLike<number>): number {
  return terms.reduce((sum, [column, coefficient]) => sum + coefficient * point[column]!, 0);
}
