import type { CurveModel } from './curve-model';

/** The rows of one dose of one curve, added up. */
export interface DoseCell {
  dose: number;
  /** Σ weight (continuous) or plants treated. */
  weight: number;
  /** Weighted mean response, or share alive. */
  mean: number;
  /** Weighted sum of squares about the mean; for plants Pearson's X² of the trays about their common share. */
  within: number;
  rows: number;
}

/**
 * Rows added up by curve and dose, doses rising: the order of the rows does not matter to anything made of them but by
 * rounding. Rows of weight 0 are left out.
 *
 * @param value response, or alive / treated; `weight` likewise
 */
export function doseCells(
  model: CurveModel,
  dose: ArrayLike<number>,
  value: Float64Array,
  weight: Float64Array,
): DoseCell[][] {
  return Array.from({ length: model.curves }, (_, curve) => {
    const byDose = new Map<number, number[]>();
    for (let row = 0; row < value.length; row += 1) {
      if (model.curve[row] !== curve || weight[row] === 0) continue;
      const rows = byDose.get(dose[row]!);
      if (rows) rows.push(row);
      else byDose.set(dose[row]!, [row]);
    }
    return [...byDose]
      .sort(([a], [b]) => a - b)
      .map(([at, rows]) => {
        const total = rows.reduce((sum, row) => sum + weight[row]!, 0);
        const mean = rows.reduce((sum, row) => sum + weight[row]! * value[row]!, 0) / total;
        const within = rows.reduce((sum, row) => sum + weight[row]! * (value[row]! - mean) ** 2, 0);
        return { dose: at, weight: total, mean, within, rows: rows.length };
      });
  });
}
