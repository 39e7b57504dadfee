/** A measure of exposure to earlier finds, one value for each row of the places at risk. */
export interface HazardTerm {
  name: string;
  values: ArrayLike<number>;
}

/** `effects`: each season has its own level. `linear`: the logarithm of the hazard changes evenly with the season. */
export type HazardSeasons = 'effects' | 'linear' | 'none';

export interface HazardEstimate {
  name: string;
  /** Logarithm of the hazard ratio for one unit more. */
  value: number;
  /** Standard error clustered by place (sandwich), and from the expected information alone. */
  standardError: number;
  modelStandardError: number;
  /** exp(value) with its interval, from the clustered standard error. */
  hazardRatio: number;
  low: number;
  high: number;
  /** Wald test of no effect, two-sided, from the clustered standard error. */
  p: number;
}

export interface HazardFit {
  kind: 'fit';
  /** The terms in their order; last, for `linear`, that of a season more. */
  estimates: readonly HazardEstimate[];
  seasons: HazardSeasons;
  /** Rows of seasons that have a level of their own (`effects`), else one, −1. */
  levelSeasons: Int32Array;
  /** Rows used behind each level: weights of a mean season. */
  levelRows: Int32Array;
  /** Terms, then levels: logarithms of the hazard of one population tested. */
  theta: Float64Array;
  /** Clustered covariance of `theta`, row by row. */
  covariance: Float64Array;
  /** The first season, from which `linear` counts. */
  firstSeason: number;
  /** Rows used, of the places at risk; their expected chance of a find, and whether there was one. */
  rows: Int32Array;
  fitted: Float64Array;
  isNew: Uint8Array;
  /** Rows left out: in seasons without a new find or with nothing else, or without a finite exposure. */
  leftOut: number;
  places: number;
  newFinds: number;
  logLikelihood: number;
}

export interface NoHazard {
  kind: 'no fit';
  reason: 'too few finds' | 'one value' | 'dependent' | 'separated' | 'no convergence';
  message: string;
}
