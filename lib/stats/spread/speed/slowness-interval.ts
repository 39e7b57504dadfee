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
 * (sandwich over places): populations of one place are not independent, no model is the truth, and few places carry a
 * front.
 *
 * @source profile limits: Venzon & Moolgavkar 1988, Applied Statistics 37:87–94; scaling by the sandwich: Chandler & Bate
 *   2007, Biometrika 94:167–183; scores of weighty places: Bell & McCaffrey 2002, Survey Methodology
 *   28:169–181 (all from memory)
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

/**
 * Variance of the slowness by second derivatives, and by how much the places' scores scatter more. A place with much weight
 * in the fit has pulled it towards itself: its score is divided by the root of what it leaves to the others.
 */
function varianceOf(fitter: FrontFitter, best: Minimum): { variance: number; scatter: number } {
  const { size, evaluate, eachScore } = fitter.objective;
  const free = Array.from({ length: size }, (_, k) => k).filter((k) => best.atBound[k] === 0);
  const at = free.indexOf(SLOWNESS);
  const squares = new Float64Array(size * size);
  evaluate(best.theta, new Float64Array(size), squares);
  const pick = (full: Float64Array) =>
    Float64Array.from({ length: free.length ** 2 }, (_, cell) => {
      const [row, column] = [free[Math.floor(cell / free.length)]!, free[cell % free.length]!];
      return full[row * size + column]!;
    });
  const full = differencedCurvature(fitter.objective, best.theta, squares);
  const bread = at < 0 ? null : invertPositive(pick(full), free.length);
  if (bread === null) {
    const bySquares = invertPositive(pick(squares), free.length);
    const variance =
      at < 0 || bySquares === null ? best.theta[SLOWNESS]! ** 2 : bySquares[at * free.length + at]!;
    return { variance: Math.max(variance, Number.MIN_VALUE), scatter: 1 };
  }
  const variance = bread[at * free.length + at]!;
  let sandwich = 0;
  eachScore(best.theta, (score) => {
    let [pull, weight] = [0, 0];
    for (let j = 0; j < free.length; j += 1) {
      let row = 0;
      for (let k = 0; k < free.length; k += 1) row += bread[j * free.length + k]! * score[free[k]!]!;
      weight += score[free[j]!]! * row;
      if (j === at) pull = row;
    }
    sandwich += pull ** 2 / (1 - Math.min(MOST_WEIGHT, weight));
  });
  return { variance, scatter: Math.max(1, sandwich / variance) };
}

/** Of a place; an outlier by itself would look like one that has all of it. */
const MOST_WEIGHT = 0.5;
