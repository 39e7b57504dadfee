import { StatsError } from '../../errors';
import { normalQuantile } from '../../normal';
import type { HazardFit } from './types';

/** Places that might be tested: values of each term in its order, and how many populations would be tested. */
export interface HazardCases {
  values: readonly ArrayLike<number>[];
  tested: ArrayLike<number>;
  /**
   * `linear`: the season itself, as 2026. `effects`: a season's row; where left out, the mean hazard of the seasons
   * fitted, each as heavy as its rows.
   */
  season?: number;
}

export interface HazardChances {
  /** Expected chance of a first find, 0 … 1, with its interval, one for each case. */
  chance: Float64Array;
  low: Float64Array;
  high: Float64Array;
}

/**
 * How likely is a first find where so many are tested? Expected chance by the fitted hazard.
 *
 * @param level confidence of the interval of the chance (of the fit, not of the outcome), 0.95 unless given
 * @throws StatsError `bad argument` where lengths differ, values are no numbers, tested is below 0, the season has no
 *   level or is missing for `linear`
 * @source interval by the delta method on the logarithm of the hazard
 */
export function chanceOfFind(fit: HazardFit, cases: HazardCases, level = 0.95): HazardChances {
  const { theta, covariance } = fit;
  const size = theta.length;
  const base = baseline(fit, cases.season);
  const terms = cases.values.length;
  const expected = fit.estimates.length - (fit.seasons === 'linear' ? 1 : 0);
  if (terms !== expected || cases.values.some((each) => each.length !== cases.tested.length)) {
    throw new StatsError('bad argument', `Got ${terms} terms; expected ${expected}, as long as tested.`);
  }
  const z = normalQuantile((1 + level) / 2);
  const out = { chance: empty(cases), low: empty(cases), high: empty(cases) };
  for (let i = 0; i < cases.tested.length; i += 1) {
    const tested = cases.tested[i]!;
    const direction = base.direction.slice();
    cases.values.forEach((values, k) => {
      direction[k] = values[i]!;
    });
    const isNumber = direction.every((each) => Number.isFinite(each)) && tested >= 0;
    if (!isNumber || tested === Number.POSITIVE_INFINITY) {
      throw new StatsError('bad argument', `Case ${i}: expected finite numbers, tested ≥ 0.`);
    }
    let [eta, variance] = [base.level, 0];
    for (let j = 0; j < size; j += 1) {
      if (j < fit.estimates.length) eta += theta[j]! * direction[j]!;
      for (let k = 0; k < size; k += 1) variance += direction[j]! * direction[k]! * covariance[j * size + k]!;
    }
    const reach = z * Math.sqrt(Math.max(0, variance));
    const chance = (log: number) => -Math.expm1(-tested * Math.exp(log));
    out.chance[i] = chance(eta);
    out.low[i] = chance(eta - reach);
    out.high[i] = chance(eta + reach);
  }
  return out;
}

/** Level, and the derivative of the linear predictor by each parameter. */
function baseline(fit: HazardFit, season: number | undefined): { level: number; direction: Float64Array } {
  const terms = fit.estimates.length;
  const levels = fit.theta.subarray(terms);
  const direction = new Float64Array(fit.theta.length);
  if (fit.seasons !== 'effects') {
    direction[terms] = 1;
    if (fit.seasons === 'linear') {
      if (season === undefined || !Number.isFinite(season)) {
        throw new StatsError('bad argument', `Got season ${season}; a fit over seasons needs a number.`);
      }
      direction[terms - 1] = season - fit.firstSeason;
    }
    return { level: levels[0]!, direction };
  }
  if (season !== undefined) {
    const at = fit.levelSeasons.indexOf(season);
    if (at < 0) throw new StatsError('bad argument', `Season row ${season} has no level in this fit.`);
    direction[terms + at] = 1;
    return { level: levels[at]!, direction };
  }
  const all = fit.levelRows.reduce((sum, rows) => sum + rows, 0);
  const hazards = levels.map((level, k) => (fit.levelRows[k]! / all) * Math.exp(level));
  const mean = hazards.reduce((sum, hazard) => sum + hazard, 0);
  hazards.forEach((hazard, k) => {
    direction[terms + k] = hazard / mean;
  });
  return { level: Math.log(mean), direction };
}

function empty({ tested }: HazardCases): Float64Array {
  return new Float64Array(tested.length);
}
