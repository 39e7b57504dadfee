import { z } from 'zod';
import { COLUMNS, type Column } from './columns';

const COLUMN = z.enum(COLUMNS);

/** What is remembered of a laboratory, so that a person explains each thing once. */
export const LABORATORY_PROFILE = z.object({
  /** Headings (as `headingKey` writes them) that mean a column, or are left aside (null). They go before the usual words. */
  headings: z.record(z.string(), COLUMN.nullable()),
  /** What every row says where a sheet lacks the column altogether. */
  lacking: z.partialRecord(COLUMN, z.string()),
  /** Cell texts that are read as other texts. */
  readings: z.array(z.object({ column: COLUMN, text: z.string(), as: z.string() })),
});
export type LaboratoryProfile = z.infer<typeof LABORATORY_PROFILE>;

/** Of a laboratory that nothing is known of. */
export const NEW_LABORATORY: LaboratoryProfile = { headings: {}, lacking: {}, readings: [] };

/** What a person said of one row. */
export interface RowAnswers {
  /** Cells that are read as other texts. */
  cells: Partial<Record<Column, string>>;
  /** Codes of reasons that the row stands in spite of. */
  stands: readonly string[];
  /** True where the row shall not count. */
  dropped: boolean;
}

export const NO_ANSWERS: RowAnswers = { cells: {}, stands: [], dropped: false };

/** Reads a cell's text as it was explained before. */
export function readingOf(profile: LaboratoryProfile): (column: Column, text: string) => string {
  const known = new Map<Column, Map<string, string>>();
  for (const { column, text, as } of profile.readings) {
    const texts = known.get(column) ?? new Map<string, string>();
    known.set(column, texts.set(text, as));
  }
  return (column, text) => known.get(column)?.get(text) ?? text;
}
