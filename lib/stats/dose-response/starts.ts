import type { CurveModel } from './curve-model';
import type { DoseCell } from './dose-cells';
import { sigmoidInto } from './sigmoid';

/** −1 where the response falls with dose, 1 where it rises: the sign of its covariance with the order of the doses. */
export function trendSign(cells: readonly DoseCell[]): -1 | 1 {
  const total = cells.reduce((sum, { weight }) => sum + weight, 0);
  const centre = cells.reduce((sum, { weight }, rank) => sum + weight * rank, 0) / total;
  const sum = cells.reduce((all, { weight, mean }, rank) => all + weight * (rank - centre) * mean, 0);
  return sum > 0 ? 1 : -1;
}

/**
 * Starting points: limits from the outermost doses, then of each curve the slope and ED50 that come nearest to its
 * means on a grid, with that slope, half and twice of it.
 *
 * @param signs of each curve: −1 falling, 1 rising
 * @cost curves × doses × 41 × 9
 */
export function starts(
  model: CurveModel,
  cells: readonly DoseCell[][],
  signs: readonly number[],
): Float64Array[] {
  const [lower, upper] = startLimits(model, cells, signs);
  const best = cells.map((doses, curve) => nearest(model, doses, -signs[curve]!, lower, upper));
  return [1, 0.5, 2, 0.25, 4].map((factor) => {
    const theta = new Float64Array(model.size);
    best.forEach(({ slope, logEd50 }, curve) => {
      theta[2 * curve] = slope * factor;
      theta[2 * curve + 1] = logEd50;
    });
    theta[model.size - 2] = lower;
    theta[model.size - 1] = upper;
    return theta;
  });
}

function startLimits(
  model: CurveModel,
  cells: readonly DoseCell[][],
  signs: readonly number[],
): [number, number] {
  const means = cells.flat().map(({ mean }) => mean);
  const range = Math.max(...means) - Math.min(...means);
  const ends = cells.map((doses, curve) => {
    const [first, last] = [doses[0]!.mean, doses.at(-1)!.mean];
    return signs[curve]! < 0 ? { low: last, high: first } : { low: first, high: last };
  });
  // A little outside the means, so that every mean lies inside the curve.
  const low = Math.min(...ends.map((end) => end.low)) - 0.02 * range;
  const high = ends.reduce((sum, end) => sum + end.high, 0) / ends.length + 0.02 * range;
  return [model.lower === 'free' ? low : model.lower, model.upper === 'free' ? high : model.upper];
}

function nearest(
  model: CurveModel,
  cells: readonly DoseCell[],
  sign: number,
  lower: number,
  upper: number,
): { slope: number; logEd50: number } {
  const sprayed = cells.filter(({ dose }) => dose > 0).map(({ dose }) => Math.log(dose));
  const [first, last] = [sprayed[0]!, sprayed.at(-1)!];
  const margin = (last - first) / 4;
  const point = { share: 0, rest: 0, steepness: 0 };
  let best = { slope: sign, logEd50: first, distance: Number.POSITIVE_INFINITY };
  for (let step = 0; step <= 40; step += 1) {
    const logEd50 = first - margin + ((last - first + 2 * margin) * step) / 40;
    for (let power = -2; power <= 4; power += 0.75) {
      const slope = sign * 2 ** power;
      const distance = cells.reduce((sum, { dose, mean, weight }) => {
        sigmoidInto(point, model.shape, slope * (Math.log(dose) - logEd50));
        return sum + weight * (mean - lower * point.rest - upper * point.share) ** 2;
      }, 0);
      if (distance < best.distance) best = { slope, logEd50, distance };
    }
  }
  return best;
}
