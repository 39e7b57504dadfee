import { type Minimum, minimise, type Objective } from '../optimise/minimise';
import { type CurveModel, modelPoint, respondInto } from './curve-model';
import type { DoseCell } from './dose-cells';
import { between, noFit } from './no-fit';
import { sigmoidInto } from './sigmoid';
import { starts } from './starts';
import type { NoFit } from './types';

/** A dose is on the slope where its share lies this far inside 0 and 1; fewer than two such doses fix no slope. */
const INSIDE = 1e-4;

/** Best minimum from all starts, or why it is none: `no convergence`, `no response`, `step`. */
export function search(
  model: CurveModel,
  cells: readonly DoseCell[][],
  signs: readonly number[],
  objective: Objective,
): Minimum | NoFit {
  const ends = starts(model, cells, signs).map((start) => minimise(objective, start));
  const best = ends.reduce((one, other) => (other.value < one.value ? other : one));
  const { theta } = best;
  // A step has no best slope, so it cannot be waited for that it converges.
  const step = refuseStep(model, cells, theta);
  if (step) return step;
  const settled = ends.find(({ converged, value }) => converged && value <= best.value * (1 + 1e-9));
  if (!settled) {
    const message =
      'no start settled on a best curve: the doses show too little of it. Add doses, or hold a limit at a number.';
    return noFit('no convergence', null, message);
  }
  if (!(theta[model.size - 2]! < theta[model.size - 1]!)) {
    return noFit('no response', null, 'the best limits are equal: the curve is a constant. Add doses.');
  }
  return settled;
}

function refuseStep(model: CurveModel, cells: readonly DoseCell[][], theta: Float64Array): NoFit | null {
  const point = { share: 0, rest: 0, steepness: 0 };
  for (const [curve, doses] of cells.entries()) {
    const slope = theta[2 * curve]!;
    const logEd50 = theta[2 * curve + 1]!;
    const shares = doses.map(({ dose }) => {
      sigmoidInto(point, model.shape, slope * (Math.log(dose) - logEd50));
      return slope > 0 ? point.share : point.rest;
    });
    if (shares.filter((share) => share > INSIDE && share < 1 - INSIDE).length >= 2) continue;
    const above = doses.findLast((_, i) => shares[i]! >= 1 - INSIDE)?.dose ?? null;
    const below = doses.find((_, i) => shares[i]! <= INSIDE)?.dose ?? null;
    const message = `the whole change lies ${between(above, below)}: no slope can be told. Add doses there.`;
    return noFit('step', curve, message, { above, below });
  }
  return null;
}

/** Expected response of every row. */
export function fittedValues(model: CurveModel, theta: Float64Array): Float64Array {
  const point = modelPoint(model);
  return Float64Array.from(model.logDose, (_, row) => {
    respondInto(point, model, theta, row);
    return point.response;
  });
}
