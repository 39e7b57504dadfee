import type { CurveModel } from './curve-model';
import type { DoseCell } from './dose-cells';
import { monotone } from './monotone';
import { noFit, refuseFewDoses } from './no-fit';
import { trendSign } from './starts';
import { fTail, studentQuantile } from './tails';
import type { NoFit } from './types';

/** Chance of refusing a curve that responds to nothing as "responds" (own rule). */
const TREND_LEVEL = 0.05;
/** Chance of refusing a response that is monotone (own rule). */
const ORDER_LEVEL = 0.01;

/**
 * Why weights or lengths cannot carry a curve, or null: too few doses or rows; means that rise and fall beyond the
 * scatter of the replicates; no change with dose beyond the scatter.
 *
 * @policy order is judged only where replicates give a scatter; trend is a straight line on the order of the doses
 * @source order: F of the one-way model against the best monotone means, given their number (Bartholomew 1959,
 *   Biometrika 46:36–48; from memory)
 */
export function refuseContinuous(model: CurveModel, cells: readonly DoseCell[][]): NoFit | null {
  const estimated = model.size - model.fixed.reduce((sum, one) => sum + one, 0);
  const few = refuseFewDoses(cells, estimated);
  if (few) return few;
  const rows = cells.flat().reduce((sum, cell) => sum + cell.rows, 0);
  if (rows <= estimated) {
    const message = `${rows} observations for ${estimated} parameters leave no error. Add replicates.`;
    return noFit('too few observations', null, message);
  }
  for (const [curve, doses] of cells.entries()) {
    const refusal = refuseOrder(doses, curve) ?? refuseTrend(model, doses, curve);
    if (refusal) return refusal;
  }
  return null;
}

function refuseOrder(cells: readonly DoseCell[], curve: number): NoFit | null {
  const within = cells.reduce((sum, cell) => sum + cell.within, 0);
  const errorDf = cells.reduce((sum, { rows }) => sum + rows - 1, 0);
  const { levels, residual } = monotone(
    cells.map(({ mean }) => mean),
    cells.map(({ weight }) => weight),
    trendSign(cells),
  );
  const df = cells.length - levels;
  if (df === 0 || errorDf === 0 || within === 0) return null;
  const p = fTail(residual / df / (within / errorDf), df, errorDf);
  if (p >= ORDER_LEVEL) return null;
  const message = `the means rise and fall with dose beyond the scatter of the replicates (p = ${p.toPrecision(2)}). Look for mixed-up pots, or growth promoted by low doses.`;
  return noFit('not monotone', curve, message);
}

function refuseTrend(model: CurveModel, cells: readonly DoseCell[], curve: number): NoFit | null {
  const rows = cells.reduce((sum, cell) => sum + cell.rows, 0);
  const total = cells.reduce((sum, { weight }) => sum + weight, 0);
  const mean = cells.reduce((sum, cell) => sum + cell.weight * cell.mean, 0) / total;
  const centre = cells.reduce((sum, { weight }, rank) => sum + weight * rank, 0) / total;
  let [all, ranks, product] = [0, 0, 0];
  for (const [rank, cell] of cells.entries()) {
    all += cell.within + cell.weight * (cell.mean - mean) ** 2;
    ranks += cell.weight * (rank - centre) ** 2;
    product += cell.weight * (rank - centre) * (cell.mean - mean);
  }
  const explained = product ** 2 / ranks;
  const df = rows - 2;
  const unexplained = Math.max(0, all - explained);
  if (all > 0 && fTail(explained / (unexplained / df), 1, df) < TREND_LEVEL) return null;
  const error = studentQuantile(0.95, rows - 1) * Math.sqrt(all / (rows - 1) / total);
  return noFit(
    'no response',
    curve,
    'no change with dose beyond the scatter. Higher doses, or more replicates, would be needed.',
    beyond(model, cells, mean - error, mean + error),
  );
}

/** Where the mean of all doses is surely above half-way between the limits, the ED50 is above the doses. */
function beyond(model: CurveModel, cells: readonly DoseCell[], low: number, high: number) {
  const { lower, upper } = model;
  if (lower === 'free') return {};
  const half = (lower + (upper === 'free' ? cells[0]!.mean : upper)) / 2;
  if (low > half) return { above: cells.at(-1)!.dose };
  if (high < half) return { below: cells.find(({ dose }) => dose > 0)!.dose };
  return {};
}
