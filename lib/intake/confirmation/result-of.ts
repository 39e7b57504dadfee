import { clopperPearson } from '@/lib/stats/clopper-pearson';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Assay, Result } from '@/lib/vocabulary/terms';

/** Plants of one screening: `treated` ≥ 1 of them, 0 ≤ `alive` ≤ `treated` (molecular: plants tested, carriers). */
export interface Screening {
  assay: Assay;
  /** Multiple of the label rate; null where a molecular assay has none. */
  rateMultiple: number | null;
  treated: number;
  alive: number;
  /** Soil-applied: plants that emerged in treated and in untreated pots sown alike; decides instead of survival. */
  emerged?: { treated: number; untreated: number } | null;
}

/**
 * The result of one screening. No survivor above the label rate alone, or a survivor below it alone, shows nothing about
 * the label rate: inconclusive. So is a soil-applied screening whose untreated seed did not emerge, and, where the
 * definition asks for exact limits, a lot with survivors whose interval holds the threshold.
 *
 * @source the definition's own; interval: Clopper & Pearson 1934, Biometrika 26:404–413
 */
export function resultOf(definition: CaseDefinition, screening: Screening): Result {
  const { assay, rateMultiple: rate, alive, emerged } = screening;
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
  if (untreated === 0) return 'inconclusive';
  if (treated === 0) return 'susceptible';
  const [part, limit] = [treated * 100, percent * untreated];
  return part > limit || (inclusive && part === limit) ? 'resistant' : 'some survivors';
}
