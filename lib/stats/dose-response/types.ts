import type { Shape } from './sigmoid';

/** A limit of the response: estimated (one for all curves), or held at a number. */
export type Limit = 'free' | number;

/** One parameter of a curve. */
export interface Estimate {
  value: number;
  /** 0 where the value was not estimated. */
  standardError: number;
  /** `at bound`: estimated, and its best value is the end of what is possible; errors then take it as known. */
  state: 'free' | 'fixed' | 'at bound';
}

/** y(dose) = lower + (upper − lower) · F(slope · ln(dose / ed50)), F falling from 1 to 0. */
export interface FittedCurve {
  /** > 0 where the response falls with dose, < 0 where it rises. */
  slope: Estimate;
  lower: Estimate;
  upper: Estimate;
  /** Dose half-way between the limits, on the scale of the doses; it may lie outside them (see `effectiveDose`). */
  ed50: Estimate;
  /** Lowest and highest dose above zero that was given. */
  lowestDose: number;
  highestDose: number;
}

/** Curve against one free mean or share for each dose of each curve; a small p says that the curve has the wrong form. */
export interface LackOfFit {
  /** F where replicates give a pure error, else the deviance (chi-square). */
  statistic: number;
  df: number;
  /** Degrees of freedom of the pure error; Infinity for a deviance. */
  errorDf: number;
  p: number;
}

export interface DoseFit {
  kind: 'fit';
  shape: Shape;
  curves: readonly FittedCurve[];
  /** Of (slope, ln ed50) of each curve in turn, then lower and upper limit; row by row. Zero where not estimated. */
  covariance: Float64Array;
  parameters: number;
  /** Degrees of freedom of the intervals: of the residuals, or Infinity where the variance is known (normal quantile). */
  df: number;
  /** Residual sum of squares, or deviance of the doses' pooled plants. */
  residual: number;
  residualDf: number;
  /** Residual standard deviation, or the square root of the dispersion by which binomial variances were multiplied. */
  sigma: number;
  /** Expected response in the order of the input. */
  fitted: Float64Array;
  /** Null where too few doses or no replicates leave nothing to compare with. */
  lackOfFit: LackOfFit | null;
}

/** Why no curve was fitted. */
export type NoFitReason =
  | 'too few doses'
  | 'too few observations'
  | 'all dead'
  | 'all alive'
  | 'untreated response'
  | 'no response'
  | 'not monotone'
  | 'perfect separation'
  | 'step'
  | 'singular'
  | 'no convergence';

export interface NoFit {
  kind: 'no fit';
  reason: NoFitReason;
  /** Which curve; null where it is all of them together. */
  curve: number | null;
  /** What was seen, and what would be needed. */
  message: string;
  /** Doses between which the ED50 lies all the same; null where that end is unknown. */
  above: number | null;
  below: number | null;
}
