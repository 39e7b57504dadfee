import type { Assay, Result } from './terms';

/** When a population counts as resistant. Definitions in print differ, so this one is dated and named beside figures. */
export interface CaseDefinition {
  version: string;
  /** First day on which sheets are judged by it. */
  from: string;
  /** Resistant from this share of survivors on, at the label rate or above. */
  survivorsPercent: number;
  /** Fewer plants than this make a question, not a result. */
  minimumPlants: Record<Assay, number>;
  /** The definition in words, as printed beside figures. */
  words: string;
}

/**
 * In order of their days. Threshold: 20 % survivors as in random surveys in Australia (terms seen in the abstract of
 * Owen et al. 2007, Aust. J. Agric. Res. 58:711; the threshold itself from memory). Minimum of 10 plants: own rule.
 * Molecular: a field is positive when any tested plant carries the mutation (Univ. of Illinois bulletin 2016–17).
 */
export const CASE_DEFINITIONS: readonly CaseDefinition[] = [
  {
    version: '2026-1',
    from: '2026-01-01',
    survivorsPercent: 20,
    minimumPlants: { 'whole plant': 10, 'soil-applied': 10, molecular: 1 },
    words:
      'Resistant: 20 % or more of at least 10 plants survived the label rate or a higher one. Some survivors: more than none, fewer than 20 %. Susceptible: none survived the label rate or a lower one. Molecular: resistant when any tested plant carries a known mutation.',
  },
];

/** The definition in force on a day (ISO); the first one for earlier days. */
export function caseDefinitionOn(day: string): CaseDefinition {
  return CASE_DEFINITIONS.findLast(({ from }) => from <= day) ?? CASE_DEFINITIONS[0]!;
}

/** Plants of one screening: `treated` ≥ 1 of them, 0 ≤ `alive` ≤ `treated` (molecular: plants tested, carriers). */
export interface Screening {
  assay: Assay;
  /** Multiple of the label rate; null where a molecular assay has none. */
  rateMultiple: number | null;
  treated: number;
  alive: number;
}

/**
 * The result of one screening. No survivor above the label rate alone, or a survivor below it alone, shows nothing
 * about the label rate: inconclusive.
 */
export function resultOf(definition: CaseDefinition, screening: Screening): Result {
  const { assay, rateMultiple: rate, treated, alive } = screening;
  if (assay === 'molecular') return alive > 0 ? 'resistant' : 'susceptible';
  if (rate === null) return 'inconclusive';
  if (rate < 1) return alive === 0 ? 'susceptible' : 'inconclusive';
  if (alive === 0) return rate === 1 ? 'susceptible' : 'inconclusive';
  return alive * 100 >= definition.survivorsPercent * treated ? 'resistant' : 'some survivors';
}
