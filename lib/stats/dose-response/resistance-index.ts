import { StatsError } from '../errors';
import { type EffectiveDose, effectiveDose } from './effective-dose';
import { studentQuantile } from './tails';
import type { DoseFit } from './types';

export type ResistanceIndex =
  | { kind: 'estimate'; index: number; logStandardError: number; low: number; high: number }
  /** One ED50 lies outside its doses, so the index is above or below this. */
  | { kind: 'above' | 'below'; index: number }
  /** Both lie outside on the same side, or one is not known at all. */
  | { kind: 'unknown' };

/**
 * ED50 of one curve over that of another of the same fit.
 *
 * @param curve of the population, 1 unless given; `reference` of the susceptible check, 0 unless given
 * @returns interval symmetric on the log scale: exp(ln index ± t · standard error), the covariance of the two ED50 by
 *   way of the common limits included. A bound holds the other ED50 at its estimate.
 * @throws StatsError `bad argument`
 * @source resistance index: Burgos et al. 2013, Weed Science 61:4–20; the ratio on the log scale by the delta method (both
 *   from memory)
 */
export function resistanceIndex(
  fit: DoseFit,
  { curve = 1, reference = 0, level = 0.95 }: { curve?: number; reference?: number; level?: number } = {},
): ResistanceIndex {
  if (curve === reference) {
    throw new StatsError('bad argument', `Got curve ${curve} twice; expected two different curves.`);
  }
  const upper = effectiveDose(fit, 50, { curve, level });
  const under = effectiveDose(fit, 50, { curve: reference, level });
  if (upper.kind === 'estimate' && under.kind === 'estimate') {
    const index = upper.dose / under.dose;
    const { covariance, parameters } = fit;
    const between = covariance[(2 * curve + 1) * parameters + 2 * reference + 1]!;
    const variance = upper.logStandardError ** 2 + under.logStandardError ** 2 - 2 * between;
    const logStandardError = Math.sqrt(Math.max(0, variance));
    const reach = Math.exp(studentQuantile(level, fit.df) * logStandardError);
    return { kind: 'estimate', index, logStandardError, low: index / reach, high: index * reach };
  }
  return boundedIndex(upper, under);
}

/**
 * What follows for the ratio of two doses that are known as bounds: a dose above X over one that is at most Y is above
 * X / Y, and the reverse. `unknown` where nothing follows, or both are estimates (then it has an interval of its own).
 */
export function boundedIndex(upper: EffectiveDose, under: EffectiveDose): ResistanceIndex {
  if (upper.kind === 'unknown' || under.kind === 'unknown') return { kind: 'unknown' };
  if (upper.kind === 'estimate' && under.kind === 'estimate') return { kind: 'unknown' };
  const index = upper.dose / under.dose;
  if (upper.kind !== 'below' && under.kind !== 'above') return { kind: 'above', index };
  if (upper.kind !== 'above' && under.kind !== 'below') return { kind: 'below', index };
  return { kind: 'unknown' };
}
