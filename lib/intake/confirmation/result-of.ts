import { clopperPearson } from '@/lib/stats/clopper-pearson';
import { checkCounts, StatsError } from '@/lib/stats/errors';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Assay, Result } from '@/lib/vocabulary/terms';

/** Plants of one screening: `treated` of them, 0 ≤ `alive` ≤ `treated` (molecular: plants tested, carriers). */
export interface Screening {
  assay: Assay;
  /** Multiple of the label rate; null where a molecular assay has none. */
  rateMultiple: number | null;
  treated: number;
  alive: number;
  /**
   * Plants that emerged in treated and in untreated pots sown alike. Soil-applied, they decide instead of survival; before
   * a spray on leaves they only tell of the seed.
   */
  emerged?: { treated: number; untreated: number } | null;
}

/**
 * The result of one screening. No survivor above the label rate alone, or a survivor below it alone, shows nothing about
 * the label rate: inconclusive. So are a screening of no plants, a soil-applied one whose untreated seed did not emerge,
 * and, where the definition asks for exact limits, a lot with survivors whose interval holds the threshold.
 *
 * @throws StatsError `bad count` where more live than were treated, or a count is negative or no number
 * @source the definition's own; interval: Clopper & Pearson 1934, Biometrika 26:404–413
 */
export function resultOf(definition: CaseDefinition, screening: Screening): Result {
  const { assay, rateMultiple: rate, treated, alive } = screening;
  const emerged = assay === 'soil-applied' ? screening.emerged : null;
  const isEmpty = treated === 0 && alive === 0;
  if (isEmpty && !emerged) return 'inconclusive';
  if (!isEmpty) checkCounts(alive, treated, 'Screening');
  if (assay === 'molecular') return alive > 0 ? 'resistant' : 'susceptible';
  if (rate === null) return 'inconclusive';
  const shown = emerged ? byEmergence(definition, emerged) : bySurvival(definition, screening);
  if (shown === 'susceptible') return rate > 1 ? 'inconclusive' : shown;
  return rate < 1 ? 'inconclusive' : shown;
}

function bySurvival(definition: CaseDefinition, { treated, alive }: Screening): Result {
  const { resistantPercent, survivorsPercent, exactLimits } = definition;
  const atLeast = (percent: number) => alive * 100 >= percent * treated;
  if (alive === 0 || !atLeast(survivorsPercent)) return 'susceptible';
  if (exactLimits !== null) {
    const { low, high } = clopperPearson(alive, treated, exactLimits);
    const threshold = resistantPercent / 100;
    if (low < threshold && threshold <= high) return 'inconclusive';
  }
  return atLeast(resistantPercent) ? 'resistant' : 'some survivors';
}

function byEmergence(
  definition: CaseDefinition,
  { treated, untreated }: { treated: number; untreated: number },
): Result {
  const { percent, inclusive } = definition.emergence;
  if (!(treated >= 0 && untreated >= 0 && treated + untreated < Infinity)) {
    const got = `Emergence: got ${treated} treated and ${untreated} untreated plants`;
    throw new StatsError('bad count', `${got}; expected counts of 0 or more. Check the counts.`);
  }
  if (untreated === 0) return 'inconclusive';
  if (treated === 0) return 'susceptible';
  const [part, limit] = [treated * 100, percent * untreated];
  return part > limit || (inclusive && part === limit) ? 'resistant' : 'some survivors';
}
