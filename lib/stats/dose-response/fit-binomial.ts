import { checkCounts, checkLengths } from '../errors';
import type { Minimum } from '../optimise/minimise';
import { LEAST_SHARE, logLikelihood } from './binomial-likelihood';
import { bounds } from './bounds';
import { type CurveModel, type CurveOptions, curveModel } from './curve-model';
import { describeFit } from './describe-fit';
import { type DoseCell, doseCells } from './dose-cells';
import { refuseBinomial } from './refuse-binomial';
import { fittedValues, search } from './search';
import { trendSign } from './starts';
import { chiSquareTail } from './tails';
import type { DoseFit, LackOfFit, NoFit } from './types';

/** Plants of each tray. */
export interface BinomialDoses {
  /** Any unit, ≥ 0; 0 is untreated. */
  dose: ArrayLike<number>;
  treated: ArrayLike<number>;
  /** 0 … treated. */
  alive: ArrayLike<number>;
  /** 0, 1, … of each row; one curve where it is not given. */
  curve?: ArrayLike<number>;
}

export interface BinomialOptions extends CurveOptions {
  /**
   * Multiply variances by Pearson's X² / df, and use t, where trays vary beyond chance (p < 0.05); trays of which less than
   * one plant is expected to live, or to die, are not asked.
   */
  heterogeneity: boolean;
}

/** Trays vary beyond chance below this p (own rule). */
const HETEROGENEITY_LEVEL = 0.05;
/**
 * Of a tray in which fewer plants than this are expected to live, or to die, chi-square says nothing: at the ends of a
 * curve such trays agree whatever happens on its slope, and would water down what is seen there.
 */
const LEAST_EXPECTED = 1;

/**
 * Log-logistic (or log-normal: probit) curves of survival by maximum likelihood, limits in common, slope and ED50 by
 * curve: two parameters with limits 0 and 1 (unless told otherwise), a free `upper` limit for natural mortality, a free
 * `lower` one for plants that no dose kills.
 *
 * @returns standard errors from the expected information (equal to the Hessian for logit with limits 0 and 1), intervals
 *   by the normal quantile, or by t where `heterogeneity` applies; lack of fit is the deviance against one share for each
 *   dose of each curve. Or the reason why there is no curve: never NaN.
 * @policy rows without plants are left out; free limits end at 0 and 1 (`at bound`: then taken as known); an ED50 beyond
 *   the doses is fitted here and withheld by `effectiveDose`
 * @throws StatsError `bad argument`; `bad count` unless 0 ≤ alive ≤ treated
 * @source Ritz, Baty, Streibig & Gerhard 2015, PLoS ONE 10(12) e0146021; natural mortality as a parameter and the
 *   heterogeneity factor: Finney 1971, Probit Analysis, 3rd edition; least expected count: Cochran 1954, Biometrics
 *   10:417–451 (all from memory)
 * @cost as `fitContinuous`
 */
export function fitBinomial(
  data: BinomialDoses,
  { lower = 0, upper = 1, shape, heterogeneity = false }: Partial<BinomialOptions> = {},
): DoseFit | NoFit {
  const model = curveModel(data.dose, data.curve, { lower, upper, shape });
  const { share, treated } = checked(data);
  const cells = doseCells(model, data.dose, share, treated);
  const refusal = refuseBinomial(model, cells, heterogeneity ? dispersionWithin(cells) : 1);
  if (refusal) return refusal;
  const signs = cells.map(trendSign);
  const plants = treated.reduce((sum, n) => sum + n, 0);
  const found = search(model, cells, signs, {
    ...logLikelihood(model, share, treated),
    ...bounds(model, cells, signs, [0, 1]),
    negligible: 1e-16 * plants,
  });
  if ('kind' in found) return found;
  const estimated = found.atBound.reduce((sum, held) => sum + 1 - held, 0);
  const pooled = deviance(model, cells, found, estimated);
  const { variance, df } = heterogeneity
    ? trayVariance(model, found, share, treated, estimated)
    : { variance: 1, df: Number.POSITIVE_INFINITY };
  return describeFit(model, cells, found, { variance, df, ...pooled });
}

function checked({ dose, treated, alive }: BinomialDoses): { share: Float64Array; treated: Float64Array } {
  checkLengths(dose, treated, 'Doses and treated plants');
  checkLengths(dose, alive, 'Doses and living plants');
  for (let row = 0; row < dose.length; row += 1) {
    if (treated[row] !== 0 || alive[row] !== 0) checkCounts(alive[row]!, treated[row]!, `Row ${row}`);
  }
  return {
    share: Float64Array.from(alive, (y, row) => (treated[row] === 0 ? 0 : y / treated[row]!)),
    treated: Float64Array.from(treated),
  };
}

/** Pearson's X² / df of trays about the share of their dose, not below 1; 1 where it is within chance. */
function dispersionWithin(cells: readonly DoseCell[][]): number {
  let [chiSquare, df] = [0, 0];
  for (const { mean, within, rows, weight } of cells.flat()) {
    if (!((weight / rows) * Math.min(mean, 1 - mean) >= LEAST_EXPECTED)) continue;
    chiSquare += within / (mean * (1 - mean));
    df += rows - 1;
  }
  return df > 0 && chiSquareTail(chiSquare, df) < HETEROGENEITY_LEVEL ? Math.max(1, chiSquare / df) : 1;
}

/** Deviance of the doses' pooled plants; a dose at which the curve is exactly 0 or 1 tells nothing. */
function deviance(
  model: CurveModel,
  cells: readonly DoseCell[][],
  { theta }: Minimum,
  estimated: number,
): { residual: number; residualDf: number; lackOfFit: LackOfFit | null } {
  const all = cells.flatMap((doses, curve) => doses.map((cell) => ({ ...cell, curve })));
  const expected = fittedValues(
    {
      ...model,
      logDose: Float64Array.from(all, ({ dose }) => Math.log(dose)),
      curve: Int32Array.from(all, ({ curve }) => curve),
    },
    theta,
  );
  let [residual, levels] = [0, 0];
  for (const [k, { weight, mean }] of all.entries()) {
    const p = expected[k]!;
    if (p > 0 && p < 1) levels += 1;
    if (mean > 0) residual += 2 * weight * mean * Math.log(mean / Math.max(LEAST_SHARE, p));
    if (mean < 1) residual += 2 * weight * (1 - mean) * Math.log((1 - mean) / Math.max(LEAST_SHARE, 1 - p));
  }
  residual = Math.max(0, residual);
  const residualDf = levels - estimated;
  const lackOfFit =
    residualDf > 0
      ? {
          statistic: residual,
          df: residualDf,
          errorDf: Number.POSITIVE_INFINITY,
          p: chiSquareTail(residual, residualDf),
        }
      : null;
  return { residual, residualDf, lackOfFit };
}

/** Dispersion of the trays about the curve, applied where it is beyond chance. */
function trayVariance(
  model: CurveModel,
  { theta }: Minimum,
  share: Float64Array,
  treated: Float64Array,
  estimated: number,
): { variance: number; df: number } {
  const expected = fittedValues(model, theta);
  let [chiSquare, rows] = [0, 0];
  for (let row = 0; row < share.length; row += 1) {
    const p = expected[row]!;
    if (!(treated[row]! * Math.min(p, 1 - p) >= LEAST_EXPECTED)) continue;
    chiSquare += (treated[row]! * (share[row]! - p) ** 2) / (p * (1 - p));
    rows += 1;
  }
  const df = rows - estimated;
  if (df <= 0 || chiSquare <= df || chiSquareTail(chiSquare, df) >= HETEROGENEITY_LEVEL) {
    return { variance: 1, df: Number.POSITIVE_INFINITY };
  }
  return { variance: chiSquare / df, df };
}
