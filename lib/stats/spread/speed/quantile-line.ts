import { checkLengths, StatsError } from '../../errors';

export interface QuantileLine {
  slope: number;
  intercept: number;
  /** Σ tau · u + (1 − tau) · v over residuals above (u) and below (v) the line: what is least. */
  loss: number;
}

/**
 * The straight line below which a share `tau` of the values lies: as 0.9 for the leading edge of what was found.
 *
 * @param x two different values at least
 * @policy Several lines may be best; one of them is given.
 * @throws StatsError `bad argument` for a share outside (0, 1), lengths that differ; `too few` where x has one value only
 * @source Koenker & Bassett 1978, Econometrica 46:33–50 (from memory). Walks along lines through one point after another:
 *   the best slope through a point is a weighted quantile, and passes through the next point
 * @cost O(n log n) a step, some tens of steps
 */
export function quantileLine(x: ArrayLike<number>, y: ArrayLike<number>, tau: number): QuantileLine {
  checkLengths(x, y, 'x and y');
  if (!(tau > 0 && tau < 1))
    throw new StatsError('bad argument', `Got share ${tau}; expected 0 … 1, exclusive.`);
  if (!Array.from(x).some((value) => value !== x[0]))
    throw new StatsError('too few', 'All values of x are the same: a line needs two.');
  let line = through(0, x, y, tau);
  for (;;) {
    // Points on the line are the ends of the edges that lead away from it.
    const pivots = Array.from(x, (_, i) => i).filter(
      (i) => Math.abs(y[i]! - line.intercept - line.slope * x[i]!) <= 1e-9 * (1 + Math.abs(y[i]!)),
    );
    const best = pivots
      .map((pivot) => through(pivot, x, y, tau))
      .reduce((least, each) => (each.loss < least.loss ? each : least), line);
    if (best.loss >= line.loss - 1e-12 * Math.abs(line.loss)) return line;
    line = best;
  }
}

/** The best line through one of the points. */
function through(pivot: number, x: ArrayLike<number>, y: ArrayLike<number>, tau: number): QuantileLine {
  const steps = Array.from(x, (value, i) => ({ dx: value - x[pivot]!, dy: y[i]! - y[pivot]! })).filter(
    ({ dx }) => dx !== 0,
  );
  const slopes = steps
    .map(({ dx, dy }) => ({ slope: dy / dx, weight: Math.abs(dx), above: dx > 0 ? tau : 1 - tau }))
    .sort((a, b) => a.slope - b.slope);
  // With the slope growing each step passes from above the line to below it, or the other way round.
  let drift = slopes.reduce((sum, { weight, above }) => sum - weight * above, 0);
  const slope = slopes.find(({ weight }) => {
    drift += weight;
    return drift >= 0;
  })!.slope;
  const intercept = y[pivot]! - slope * x[pivot]!;
  let loss = 0;
  for (let i = 0; i < x.length; i += 1) {
    const rest = y[i]! - intercept - slope * x[i]!;
    loss += rest > 0 ? tau * rest : (tau - 1) * rest;
  }
  return { slope, intercept, loss };
}
