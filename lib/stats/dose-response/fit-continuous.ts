import { checkLengths, StatsError } from '../errors';
import type { Objective } from '../optimise/minimise';
import { bounds } from './bounds';
import { type CurveModel, type CurveOptions, curveModel, modelPoint, respondInto } from './curve-model';
import { describeFit } from './describe-fit';
import { type DoseCell, doseCells } from './dose-cells';
import { refuseContinuous } from './refuse-continuous';
import { search } from './search';
import { trendSign } from './starts';
import { fTail } from './tails';
import type { DoseFit, LackOfFit, NoFit } from './types';

/** A weight, length or other measure of each pot or plant. */
export interface ContinuousDoses {
  /** Any unit, ≥ 0; 0 is untreated. */
  dose: ArrayLike<number>;
  response: ArrayLike<number>;
  /** 0, 1, … of each row; one curve where it is not given. */
  curve?: ArrayLike<number>;
  /** Inverse variances but for a factor, ≥ 0; all 1 where not given. */
  weight?: ArrayLike<number>;
}

/**
 * Log-logistic curves of a continuous response by least squares, limits in common, slope and ED50 by curve: four
 * parameters with both limits `free`, three with one of them a number (lower limit 0 unless given).
 *
 * @returns standard errors by Gauss–Newton (residual variance × inverse of J′WJ; differs from the Hessian's by 1–2 % at
 *   usual scatter), intervals by Student's t with the residual degrees of freedom; lack of fit is F against one mean for
 *   each dose of each curve, null without replicates. Or the reason why there is no curve: never NaN.
 * @policy rows of weight 0 are left out; an ED50 beyond the doses is fitted here and withheld by `effectiveDose`
 * @throws StatsError `bad argument` for a dose, response, weight or curve number that is none
 * @source Seefeldt, Jensen & Fuerst 1995, Weed Technology 9:218–227, equation 1; Ritz, Baty, Streibig & Gerhard 2015,
 *   PLoS ONE 10(12) e0146021 (equations from memory)
 * @cost about 100 passes over the rows for each of 5 starts; 90 rows and two curves: some milliseconds
 */
export function fitContinuous(
  data: ContinuousDoses,
  { lower = 0, upper = 'free', shape }: Partial<CurveOptions> = {},
): DoseFit | NoFit {
  const model = curveModel(data.dose, data.curve, { lower, upper, shape });
  const { response, weight } = checked(data);
  const cells = doseCells(model, data.dose, response, weight);
  const refusal = refuseContinuous(model, cells);
  if (refusal) return refusal;
  const signs = cells.map(trendSign);
  const total = cells.flat().reduce((sum, cell) => sum + cell.within + cell.weight * cell.mean ** 2, 0);
  const infinite: [number, number] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const found = search(model, cells, signs, {
    ...sumOfSquares(model, response, weight),
    ...bounds(model, cells, signs, infinite),
    negligible: 1e-28 * total,
  });
  if ('kind' in found) return found;
  const estimated = found.atBound.reduce((sum, held) => sum + 1 - held, 0);
  const rows = cells.flat().reduce((sum, cell) => sum + cell.rows, 0);
  const residual = 2 * found.value;
  const residualDf = rows - estimated;
  return describeFit(model, cells, found, {
    variance: residual / residualDf,
    df: residualDf,
    residual,
    residualDf,
    lackOfFit: lackOfFit(cells, residual, estimated),
  });
}

function checked({ dose, response, weight }: ContinuousDoses): {
  response: Float64Array;
  weight: Float64Array;
} {
  checkLengths(dose, response, 'Doses and responses');
  if (weight) checkLengths(dose, weight, 'Doses and weights');
  for (let row = 0; row < dose.length; row += 1) {
    const w = weight?.[row] ?? 1;
    if (!Number.isFinite(response[row]) || !(w >= 0 && w < Number.POSITIVE_INFINITY)) {
      const got = `response ${response[row]}, weight ${w}`;
      throw new StatsError('bad argument', `Row ${row}: got ${got}; expected a number and a number ≥ 0.`);
    }
  }
  return {
    response: Float64Array.from(response),
    weight: weight ? Float64Array.from(weight) : new Float64Array(dose.length).fill(1),
  };
}

/** Half the weighted sum of squares. */
function sumOfSquares(
  model: CurveModel,
  response: Float64Array,
  weight: Float64Array,
): Pick<Objective, 'size' | 'evaluate'> {
  const { size } = model;
  const point = modelPoint(model);
  const evaluate: Objective['evaluate'] = (theta, gradient, curvature) => {
    gradient?.fill(0);
    curvature?.fill(0);
    let value = 0;
    for (let row = 0; row < response.length; row += 1) {
      respondInto(point, model, theta, row);
      const over = point.response - response[row]!;
      const w = weight[row]!;
      value += (w * over * over) / 2;
      if (!gradient || !curvature) continue;
      for (let j = 0; j < size; j += 1) {
        const derivative = w * point.derivatives[j]!;
        gradient[j]! += derivative * over;
        for (let k = 0; k < size; k += 1) curvature[j * size + k]! += derivative * point.derivatives[k]!;
      }
    }
    return value;
  };
  return { size, evaluate };
}

function lackOfFit(cells: readonly DoseCell[][], residual: number, estimated: number): LackOfFit | null {
  const all = cells.flat();
  const within = all.reduce((sum, cell) => sum + cell.within, 0);
  const errorDf = all.reduce((sum, { rows }) => sum + rows - 1, 0);
  const df = all.length - estimated;
  if (df <= 0 || errorDf <= 0 || within <= 0) return null;
  const statistic = Math.max(0, residual - within) / df / (within / errorDf);
  return { statistic, df, errorDf, p: fTail(statistic, df, errorDf) };
}
