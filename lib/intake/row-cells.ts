import { COLUMNS, type Column, HEADING } from './columns';
import type { Header } from './find-header';
import { type LaboratoryProfile, readingOf } from './laboratory-profile';

/** A row's text by column, without blanks around. */
export type Cells = Readonly<Record<Column, string>>;

/**
 * Makes cells of the fields of a row: as they are read for this laboratory, with the unit that a heading gives, and what a
 * lacking column is taken to say.
 */
export function createCellReader(
  { headings, places, lacking }: Pick<Header, 'headings' | 'places' | 'lacking'>,
  profile: LaboratoryProfile,
): (fields: readonly string[]) => Cells {
  const read = readingOf(profile);
  const explained = new Set(profile.readings.map(({ column }) => column));
  const unit = unitOf(headings[places.get('height') ?? -1]);
  const template = Object.fromEntries(COLUMNS.map((column) => [column, lacking[column] ?? '']));
  const present = [...places].map(([column, place]) => ({
    column,
    place,
    isExplained: explained.has(column),
  }));
  return (fields) => {
    const cells = { ...template } as Record<Column, string>;
    for (const { column, place, isExplained } of present) {
      const text = fields[place]?.trim() ?? '';
      cells[column] = isExplained ? read(column, text) : text;
    }
    if (unit !== null && /\d$/.test(cells.height)) cells.height += ` ${unit}`;
    return cells;
  };
}

/** The sheet's own heading of a column, or the usual one where it has none. */
export function headingOf(columns: Partial<Record<Column, string>>): (column: Column) => string {
  return (column) => columns[column] || HEADING[column];
}

/** The unit of length that a heading names, or null. */
function unitOf(heading: string | undefined): string | null {
  return /\b(cm|in|inch|inches|mm)\b/i.exec(heading ?? '')?.[1]?.toLowerCase() ?? null;
}
