import type { SeasonCounts, SpreadPoints } from '../types';

/** Counts of places, and the points that they consist of. */
export interface SpreadMap {
  counts: SeasonCounts;
  points: SpreadPoints;
  /**
   * For each place of the counts the points whose shares it averages, as a district its counties. Absent: place i is
   * point i.
   */
  members?: readonly (readonly number[])[];
}

/**
 * How a place fills after it is reached at the time t = start + slowness · distance from the origin.
 *
 * `arrival`: it is reached at a normal time about t; before that none is resistant, afterwards each with one chance.
 * `rising share`: the share grows about t along a logistic curve to its highest.
 */
export type FrontModel = 'arrival' | 'rising share';

export interface Origin {
  x: number;
  y: number;
  /** Time at which the front starts there, in seasons: 2014.5 is the middle of what came between 2014 and 2015. */
  start: number;
}

/** A front as it fits best. */
export interface FrontFit {
  model: FrontModel;
  origins: Origin[];
  /** Seasons for one unit of distance: 1 / speed. */
  slowness: number;
  /** Seasons: standard deviation of the arrival (`arrival`), or scale of the logistic curve (`rising share`). */
  width: number;
  /** Chance of a resistant population after arrival; highest share. */
  level: number;
  logLikelihood: number;
  /** Slowness, log width, logit level, then start, x, y of each origin. */
  theta: Float64Array;
  converged: boolean;
}

/** θ of a front: its first three entries, and how many each origin takes. */
export const SLOWNESS = 0;
export const LOG_WIDTH = 1;
export const LOGIT_LEVEL = 2;
export const FIRST_ORIGIN = 3;
export const PER_ORIGIN = 3;
