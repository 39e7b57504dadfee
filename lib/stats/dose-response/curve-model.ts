import { StatsError } from '../errors';
import { type Shape, type SigmoidPoint, sigmoidInto } from './sigmoid';
import type { Limit } from './types';

export interface CurveOptions {
  /** Response at a dose so high that nothing is left. */
  lower: Limit;
  /** Response without herbicide. */
  upper: Limit;
  shape?: Shape;
}

/**
 * Several curves with limits in common, a slope and an ED50 each. Parameters in order: (slope, ln ed50) of each curve,
 * then lower limit, then upper limit; a limit that is a number keeps its place but is never estimated.
 */
export interface CurveModel {
  shape: Shape;
  curves: number;
  size: number;
  /** 1 for a limit that is a number. */
  fixed: Uint8Array;
  lower: Limit;
  upper: Limit;
  /** Of each row: ln dose (−Infinity untreated) and curve. */
  logDose: Float64Array;
  curve: Int32Array;
}

/**
 * Checks doses and curve numbers and lays out the parameters.
 *
 * @param dose finite and ≥ 0, one a row
 * @param curve 0, 1, … of each row; all rows are one curve where it is not given
 * @throws StatsError `bad argument`
 */
export function curveModel(
  dose: ArrayLike<number>,
  curve: ArrayLike<number> | undefined,
  { lower, upper, shape = 'log-logistic' }: CurveOptions,
): CurveModel {
  if (curve && curve.length !== dose.length) {
    throw new StatsError('bad argument', `${dose.length} doses, but ${curve.length} curve numbers.`);
  }
  const curveOf = Int32Array.from({ length: dose.length }, (_, row) => curve?.[row] ?? 0);
  const curves = curveOf.reduce((most, number) => Math.max(most, number + 1), 1);
  for (let row = 0; row < dose.length; row += 1) {
    const number = curve?.[row] ?? 0;
    if (!(dose[row]! >= 0 && dose[row]! < Number.POSITIVE_INFINITY)) {
      throw new StatsError('bad argument', `Row ${row}: got dose ${dose[row]}; expected a number ≥ 0.`);
    }
    if (!(Number.isInteger(number) && number >= 0)) {
      throw new StatsError('bad argument', `Row ${row}: got curve ${number}; expected 0, 1, 2 and so on.`);
    }
  }
  if (typeof lower === 'number' && typeof upper === 'number' && !(lower < upper)) {
    throw new StatsError('bad argument', `Got limits ${lower} and ${upper}; expected lower < upper.`);
  }
  const size = 2 * curves + 2;
  const fixed = new Uint8Array(size);
  if (lower !== 'free') fixed[size - 2] = 1;
  if (upper !== 'free') fixed[size - 1] = 1;
  const logDose = Float64Array.from(dose, Math.log);
  return { shape, curves, size, fixed, lower, upper, logDose, curve: curveOf };
}

/** A response and how far it is from the upper limit's side, with its derivatives by the parameters. */
export interface ModelPoint extends SigmoidPoint {
  response: number;
  derivatives: Float64Array;
}

export function modelPoint(model: CurveModel): ModelPoint {
  return { share: 0, rest: 0, steepness: 0, response: 0, derivatives: new Float64Array(model.size) };
}

/** Writes response and derivatives of one row into `point`; those of limits that are numbers are 0. */
export function respondInto(point: ModelPoint, model: CurveModel, theta: Float64Array, row: number): void {
  const at = 2 * model.curve[row]!;
  const { size, fixed, logDose } = model;
  const slope = theta[at]!;
  const lower = theta[size - 2]!;
  const upper = theta[size - 1]!;
  const distance = logDose[row]! - theta[at + 1]!;
  sigmoidInto(point, model.shape, slope * distance);
  point.response = lower * point.rest + upper * point.share;
  const change = (upper - lower) * point.steepness;
  point.derivatives.fill(0);
  if (distance > Number.NEGATIVE_INFINITY) {
    point.derivatives[at] = -change * distance;
    point.derivatives[at + 1] = change * slope;
  }
  if (!fixed[size - 2]) point.derivatives[size - 2] = point.rest;
  if (!fixed[size - 1]) point.derivatives[size - 1] = point.share;
}
