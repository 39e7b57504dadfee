import type { Objective } from '../optimise/minimise';
import { type CurveModel, modelPoint, respondInto } from './curve-model';

/**
 * Negative log-likelihood (but for the binomial coefficients) of shares alive, with the expected information as curvature.
 * Dead are counted by their own tail, so that a share near 1 loses no digits.
 */
export function logLikelihood(
  model: CurveModel,
  share: Float64Array,
  treated: Float64Array,
): Pick<Objective, 'size' | 'evaluate'> {
  const { size } = model;
  const point = modelPoint(model);
  const evaluate: Objective['evaluate'] = (theta, gradient, curvature) => {
    gradient?.fill(0);
    curvature?.fill(0);
    const lower = theta[size - 2]!;
    const upper = theta[size - 1]!;
    let value = 0;
    for (let row = 0; row < share.length; row += 1) {
      const n = treated[row]!;
      if (n === 0) continue;
      respondInto(point, model, theta, row);
      const alive = Math.max(LEAST_SHARE, point.response);
      const dead = Math.max(LEAST_SHARE, (1 - lower) * point.rest + (1 - upper) * point.share);
      const y = share[row]!;
      if (y > 0) value -= n * y * Math.log(alive);
      if (y < 1) value -= n * (1 - y) * Math.log(dead);
      if (!gradient || !curvature) continue;
      const slope = (n * (1 - y)) / dead - (n * y) / alive;
      const information = n / alive / dead;
      for (let j = 0; j < size; j += 1) {
        const derivative = point.derivatives[j]!;
        if (derivative === 0) continue;
        gradient[j]! += derivative * slope;
        for (let k = 0; k < size; k += 1) {
          curvature[j * size + k]! += derivative * point.derivatives[k]! * information;
        }
      }
    }
    return value;
  };
  return { size, evaluate };
}

/** Smallest distance of an expected share from 0 and 1 in a logarithm or divisor. */
export const LEAST_SHARE = 1e-300;
