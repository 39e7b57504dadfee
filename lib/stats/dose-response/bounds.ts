import type { CurveModel } from './curve-model';
import type { DoseCell } from './dose-cells';

/** Beyond this many times the tested range no ED50 is looked for: it is outside the doses all the same. */
const BEYOND = Math.log(1e6);
/** At this distance from the ED50 (in logits) the curve is flat to 1e-13: a steeper slope changes nothing. */
const FLAT = 30;

/**
 * Where the parameters may lie: slopes keep the sign of the trend, the ED50 stays within a factor of 10⁶ of the tested
 * doses, a limit that is a number stays there.
 *
 * @param limits least and greatest limit
 */
export function bounds(
  model: CurveModel,
  cells: readonly DoseCell[][],
  signs: readonly number[],
  limits: readonly [number, number],
): { low: Float64Array; high: Float64Array } {
  const low = new Float64Array(model.size);
  const high = new Float64Array(model.size);
  cells.forEach((doses, curve) => {
    const steepest = FLAT / smallestGap(doses);
    const flattest = 1e-4;
    low[2 * curve] = signs[curve]! < 0 ? flattest : -steepest;
    high[2 * curve] = signs[curve]! < 0 ? steepest : -flattest;
    const sprayed = doses.filter(({ dose }) => dose > 0);
    low[2 * curve + 1] = Math.log(sprayed[0]!.dose) - BEYOND;
    high[2 * curve + 1] = Math.log(sprayed.at(-1)!.dose) + BEYOND;
  });
  [model.lower, model.upper].forEach((limit, k) => {
    const at = model.size - 2 + k;
    low[at] = limit === 'free' ? limits[0] : limit;
    high[at] = limit === 'free' ? limits[1] : limit;
  });
  return { low, high };
}

function smallestGap(cells: readonly DoseCell[]): number {
  const logs = cells.filter(({ dose }) => dose > 0).map(({ dose }) => Math.log(dose));
  return logs.slice(1).reduce((least, log, i) => Math.min(least, log - logs[i]!), Number.POSITIVE_INFINITY);
}
