import { StatsError } from '../errors';
import { normalCdf, normalQuantile } from '../normal';

/** Logistic or normal distribution of the logarithm of the dose that a plant just survives (logit, probit). */
export type Shape = 'log-logistic' | 'log-normal';

/** Value of a falling sigmoid: `share` = F(t), `rest` = 1 − F(t) without cancellation, `steepness` = −F′(t). */
export interface SigmoidPoint {
  share: number;
  rest: number;
  steepness: number;
}

/** Writes F(t) into `point`; t may be ±Infinity. F(0) = ½. */
export function sigmoidInto(point: SigmoidPoint, shape: Shape, t: number): void {
  if (shape === 'log-normal') {
    point.share = normalCdf(-t);
    point.rest = normalCdf(t);
    point.steepness = Math.exp((-t * t) / 2) / Math.sqrt(2 * Math.PI);
    return;
  }
  const odds = Math.exp(-Math.abs(t));
  const near = 1 / (1 + odds);
  const far = odds / (1 + odds);
  point.share = t > 0 ? far : near;
  point.rest = t > 0 ? near : far;
  point.steepness = near * far;
}

/** The t at which 1 − F(t) is `percent` / 100. */
export function sigmoidQuantile(shape: Shape, percent: number): number {
  if (!(percent > 0 && percent < 100)) {
    throw new StatsError('bad argument', `Got ${percent} %; expected more than 0 and less than 100, as 50.`);
  }
  return shape === 'log-normal' ? normalQuantile(percent / 100) : Math.log(percent / (100 - percent));
}
