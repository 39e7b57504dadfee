import { z } from 'zod';
import data from './case-definitions.json';

const ASSAY_MINIMUM = z.strictObject({
  'whole plant': z.number().int().min(1),
  'soil-applied': z.number().int().min(1),
  molecular: z.number().int().min(1),
});

/** When a population counts as resistant. Definitions in print differ, so each has a version that is named beside figures. */
export const CASE_DEFINITION = z
  .strictObject({
    version: z.string().trim().min(1).max(40),
    /** First day (ISO) on which sheets are judged by it; null = only where a programme chose it. */
    from: z.iso.date().nullable(),
    /** Resistant from this percentage of survivors on, at the label rate or above. */
    resistantPercent: z.number().gt(0).max(100),
    /** Some survivors from this percentage on; 0 = from one survivor on. */
    survivorsPercent: z.number().min(0).max(100),
    /** Soil-applied: resistant where so many per cent emerge of what emerges untreated; `inclusive`: that itself too. */
    emergence: z.strictObject({ percent: z.number().gt(0).max(100), inclusive: z.boolean() }),
    /** Level of the exact interval that decides borderline lots (inconclusive while it holds the threshold); null = none. */
    exactLimits: z.number().gt(0.5).lt(1).nullable(),
    /** Fewer plants than this make a question, not a result. */
    minimumPlants: ASSAY_MINIMUM,
    source: z.string().trim().min(1),
    mark: z.enum(['own rule', 'printed', 'from memory', 'common practice, no source']),
    /** The definition in words, as printed beside figures. */
    words: z.string().trim().min(1),
  })
  .refine(({ survivorsPercent, resistantPercent }) => survivorsPercent < resistantPercent, {
    path: ['survivorsPercent'],
    message: 'must be below resistantPercent',
  });
export type CaseDefinition = z.infer<typeof CASE_DEFINITION>;

/** The definitions that come with the project; the dated ones first, in order of their days. */
export const CASE_DEFINITIONS: readonly CaseDefinition[] = data.definitions.map((entry) =>
  CASE_DEFINITION.parse(entry),
);

const DATED = CASE_DEFINITIONS.filter(({ from }) => from !== null);

/** The definition in force on a day (ISO) where a programme chose none; the first one for earlier days. */
export function caseDefinitionOn(day: string): CaseDefinition {
  return DATED.findLast(({ from }) => from! <= day) ?? DATED[0]!;
}
