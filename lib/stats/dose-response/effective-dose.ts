import { StatsError } from '../errors';
import { sigmoidQuantile } from './sigmoid';
import { studentQuantile } from './tails';
import type { DoseFit } from './types';

export type EffectiveDose =
  | {
      kind: 'estimate';
      dose: number;
      standardError: number;
      /** Of ln dose. */
      logStandardError: number;
      low: number;
      high: number;
    }
  /** The curve passes that effect beyond the highest, or before the lowest, tested dose: only that is known. */
  | { kind: 'above' | 'below'; dose: number }
  /** The interval would span more than a factor of 10⁶ (own rule): the doses do not tell. */
  | { kind: 'unknown' };

const WIDEST = 1e6;

/**
 * Dose at which the response has gone `percent` of its way from the untreated limit to the other one (ED50, ED90).
 *
 * @param percent 0 … 100, the ends excluded; relative to the curve's own limits, so that natural mortality does not count
 * @param curve which one, 0 unless given; `level` of the two-sided interval, 0.95 unless given
 * @returns standard error by the delta method; interval symmetric on the log scale (its ends may lie outside the tested
 *   doses, the estimate may not: then `above` the highest or `below` the lowest tested dose)
 * @throws StatsError `bad argument`
 * @source ED_p = ED50 · (p / (100 − p))^(1/|slope|) for the log-logistic: Seefeldt, Jensen & Fuerst 1995, Weed
 *   Technology 9:218–227; delta method: Ritz et al. 2015, PLoS ONE 10(12) e0146021 (both from memory)
 */
export function effectiveDose(
  fit: DoseFit,
  percent: number,
  { curve = 0, level = 0.95 }: { curve?: number; level?: number } = {},
): EffectiveDose {
  const one = fit.curves[curve];
  if (!one || !(level > 0 && level < 1)) {
    const got = `curve ${curve}, level ${level}`;
    throw new StatsError(
      'bad argument',
      `Got ${got}; expected a curve below ${fit.curves.length} and 0 < level < 1.`,
    );
  }
  const slope = one.slope.value;
  const t = sigmoidQuantile(fit.shape, percent);
  const logDose = Math.log(one.ed50.value) + t / Math.abs(slope);
  const dose = Math.exp(logDose);
  if (dose > one.highestDose * (1 + 1e-9)) return { kind: 'above', dose: one.highestDose };
  if (dose < one.lowestDose * (1 - 1e-9)) return { kind: 'below', dose: one.lowestDose };
  const bySlope = -t / (slope * Math.abs(slope));
  const at = 2 * curve * fit.parameters + 2 * curve;
  const variance =
    bySlope ** 2 * fit.covariance[at]! +
    2 * bySlope * fit.covariance[at + 1]! +
    fit.covariance[at + fit.parameters + 1]!;
  const logStandardError = Math.sqrt(Math.max(0, variance));
  const reach = Math.exp(studentQuantile(level, fit.df) * logStandardError);
  if (!(reach * reach <= WIDEST)) return { kind: 'unknown' };
  return {
    kind: 'estimate',
    dose,
    standardError: dose * logStandardError,
    logStandardError,
    low: dose / reach,
    high: dose * reach,
  };
}
