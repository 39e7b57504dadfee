import { normalQuantile } from '../../normal';
import { invertPositive } from '../../optimise/linear';
import type { Minimum } from '../../optimise/minimise';
import { differencedCurvature } from './differenced-curvature';
import type { FrontFitter, Held } from './fit-front';
import { SLOWNESS } from './types';

export interface SlownessInterval {
  /** Seasons for one unit of distance; null where the likelihood does not end on that side. */
  low: number | null;
  high: number | null;
  /** Factor of the variance by which places scatter more than the model says, at least 1. */
  scatter: number;
  /** A better fit than the best one known, that came up on the way: begin again from there. */
  better: Minimum | null;
}

/**
 * Profile-likelihood interval of the slowness, widened where the places' scores scatter more than the model expects
 * (sandwich over places): populations of one place are not independent, and no model is the truth.
 *
 * @source profile limits: Venzon & Moolgavkar 1988, Applied Statistics 37:87–94; scaling by the sandwich: Chandler & Bate
 *   2007, Biometrika 94:167–183 (both from memory)
 * @cost about ten fits
 */
export function slownessInterval(
  fitter: FrontFitter,
  best: Minimum,
  level: number,
  held: Held = {},
): SlownessInterval {
  const { variance, scatter } = varianceOf(fitter, best);
  const wanted = normalQuantile((1 + level) / 2) * Math.sqrt(scatter);
  const step = Math.sqrt(variance) * wanted;
  let better: Minimum | null = null;
  /** How unlikely a slowness is beside the best, in standard deviations. */
  const away = (slowness: number, from: Float64Array) => {
    const start = from.slice();
    start[SLOWNESS] = slowness;
    const fit = fitter.fit(start, { ...held, slowness: true });
    if (fit.value < best.value - BETTER) better = fit;
    return { theta: fit.theta, z: Math.sqrt(2 * Math.max(0, fit.value - best.value)) };
  };
  const limit = (side: 1 | -1) => {
    let near = { theta: best.theta, z: 0 };
    let far = near;
    for (let doubling = 1; far.z < wanted; doubling *= 2) {
      if (doubling > FARTHEST || better) return null;
      near = far;
      far = away(best.theta[SLOWNESS]! + side * step * doubling, near.theta);
    }
    for (let round = 0; round < 20 && !better; round += 1) {
      const [from, to] = [near.theta[SLOWNESS]!, far.theta[SLOWNESS]!];
      // Standard deviations grow nearly in a line; the bend is kept from slowing it down.
      const part = Math.min(0.9, Math.max(0.1, (wanted - near.z) / (far.z - near.z)));
      const at = from + part * (to - from);
      const between = away(at, near.theta);
      if (Math.abs(between.z - wanted) < CLOSE) return at;
      if (between.z < wanted) near = between;
      else far = between;
    }
    return far.theta[SLOWNESS]!;
  };
  const low = limit(-1);
  const high = better ? null : limit(1);
  return { low, high, scatter, better };
}

/** Gain of log-likelihood that makes a fit a better one. */
const BETTER = 1e-3;
/** Standard deviations by which a limit may be missed. */
const CLOSE = 0.005;
const FARTHEST = 32;

function varianceOf(fitter: FrontFitter, best: Minimum): { variance: number; scatter: number } {
  const { size, evaluate, places } = fitter.objective;
  const free = Array.from({ length: size }, (_, k) => k).filter((k) => best.atBound[k] === 0);
  const at = free.indexOf(SLOWNESS);
  const squares = new Float64Array(size * size);
  const gradient = new Float64Array(size);
  evaluate(best.theta, gradient, squares);
  const pick = (full: Float64Array) =>
    Float64Array.from({ length: free.length ** 2 }, (_, cell) => {
      const [row, column] = [free[Math.floor(cell / free.length)]!, free[cell % free.length]!];
      return full[row * size + column]!;
    });
  const scores = pick(squares);
  const bySquares = invertPositive(scores, free.length);
  const bread =
    at < 0
      ? null
      : invertPositive(pick(differencedCurvature(fitter.objective, best.theta, squares)), free.length);
  if (bread === null) {
    const variance =
      at < 0 || bySquares === null ? best.theta[SLOWNESS]! ** 2 : bySquares[at * free.length + at]!;
    return { variance: Math.max(variance, Number.MIN_VALUE), scatter: 1 };
  }
  const row = bread.subarray(at * free.length, (at + 1) * free.length);
  let sandwich = 0;
  for (let j = 0; j < free.length; j += 1)
    for (let k = 0; k < free.length; k += 1) sandwich += row[j]! * scores[j * free.length + k]! * row[k]!;
  const scatter = ((sandwich / row[at]!) * places) / Math.max(1, places - 1);
  return { variance: row[at]!, scatter: Math.max(1, scatter) };
}
