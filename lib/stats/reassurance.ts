import { upperLimit } from './clopper-pearson';
import { checkCounts, StatsError } from './errors';

export interface Reassurance {
  /** One-sided upper limit of the share that is still compatible with none found. */
  upper: number;
  /** Populations with none resistant that would be needed in all to bring the limit to the target or below. */
  needed: number;
  /** How many more than were tested. */
  more: number;
}

/**
 * How sure may a place be in which no resistant population was found, and how many more clean ones would it take?
 *
 * @param resistant of `tested`, whole numbers
 * @param target a share, 0 … 1 exclusive, 0.1 unless given: the limit is to be at most this
 * @param level of the one-sided limit, 0.95 unless given
 * @returns null where some were found, for which there is nothing to reassure about
 * @policy With none tested the limit is 1. Speaks of populations such as were sent, not of fields, and takes them as
 *   independent: seven of one operation are fewer than seven.
 * @throws StatsError `bad count`; `bad argument` for a target or level outside (0, 1)
 * @source as `upperLimit` (Clopper & Pearson 1934, one tail): 0 of n is compatible with shares up to 1 − α^(1/n), which
 *   is at most t from n = log α / log(1 − t) on
 * @example reassurance(0, 6); // { upper: 0.393, needed: 29, more: 23 }
 */
export function reassurance(
  resistant: number,
  tested: number,
  { target = 0.1, level = 0.95 }: { target?: number; level?: number } = {},
): Reassurance | null {
  if (!(target > 0 && target < 1 && level > 0 && level < 1)) {
    throw new StatsError('bad argument', `Got target ${target}, level ${level}; expected 0 … 1, exclusive.`);
  }
  if (tested !== 0 || resistant !== 0) checkCounts(resistant, tested, 'Reassurance');
  if (resistant > 0) return null;
  const needed = populationsNeeded(target, level);
  return {
    upper: tested === 0 ? 1 : upperLimit(0, tested, level),
    needed,
    more: Math.max(0, needed - tested),
  };
}

function populationsNeeded(target: number, level: number): number {
  // Rounding may put a whole number on the wrong side of itself, as log 0.25 / log 0.5.
  const exact = Math.log1p(-level) / Math.log1p(-target);
  return Math.max(1, Math.ceil(exact - 1e-9));
}
