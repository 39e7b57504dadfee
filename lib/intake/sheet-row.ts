import type { RecordText } from './assemble-records';
import type { Column } from './columns';
import type { Header } from './find-header';
import type { LaboratoryProfile } from './laboratory-profile';
import { beginning } from './reading';
import { type Cells, createCellReader, headingOf } from './row-cells';

/** A data row of a sheet, read or broken. */
export interface SheetRow {
  /** 1-based number among the data rows. */
  record: number;
  /** Line of the file on which it starts. */
  line: number;
  /**
   * Text by column, without blanks around and as it is read for this laboratory; for a column that the sheet does not
   * have, what that is taken to say, else ''.
   */
  cells: Cells;
  /** Text by the sheet's own headings, as sent. */
  raw: Readonly<Record<string, string>>;
  /** The same in the order of the headings; left out of a broken row. */
  fields?: readonly string[] | undefined;
  /** The sheet's own heading of a column. */
  heading: (column: Column) => string;
  /** Why the row could not be read, and what to do; its cells are empty then. */
  broken: { code: 'ROW_QUOTES' | 'ROW_FIELDS' | 'ROW_TEXT'; reason: string; remedy: string } | null;
}

/** Makes rows of records and their fields, counting them. */
export function createRowMaker(header: Header, profile: LaboratoryProfile) {
  const { headings, places } = header;
  const heading = headingOf(
    Object.fromEntries([...places].map(([column, place]) => [column, headings[place]!])),
  );
  const cellsOf = createCellReader(header, profile);
  const names = namesOf(headings);
  let record = 0;
  const toRow = (text: RecordText, fields: readonly string[]): SheetRow => {
    record++;
    if (text.broken) {
      const raw = { 'the line': beginning(text.text, 2000).replaceAll('\0', '\u2400') };
      return {
        record,
        line: text.line,
        cells: cellsOf([]),
        raw,
        heading,
        broken: whyBroken(text, headings.length),
      };
    }
    const raw: Record<string, string> = {};
    for (let i = 0; i < names.length; i++) raw[names[i]!] = fields[i]!;
    return { record, line: text.line, cells: cellsOf(fields), raw, fields, heading, broken: null };
  };
  toRow.count = () => record;
  return toRow;
}

/** Headings as a row names them: a blank one by its place. */
export function namesOf(headings: readonly string[]): string[] {
  return headings.map((name, i) => name || `column ${i + 1}`);
}

function whyBroken({ broken, fields }: RecordText, width: number): SheetRow['broken'] {
  if (broken === 'fields') {
    const reason = `The row has ${fields} fields, the headings are ${width}.`;
    const remedy = 'Look for a missing cell, or for a delimiter inside a text that is not quoted.';
    return { code: 'ROW_FIELDS', reason, remedy };
  }
  if (broken === 'quote') {
    const reason = 'A quotation mark is opened and not closed, or closed in the middle of a text.';
    return { code: 'ROW_QUOTES', reason, remedy: 'Close it, double it inside a quoted text, or remove it.' };
  }
  const reason =
    broken === 'long'
      ? 'The row is longer than 262,144 characters.'
      : 'The row holds bytes that are no text.';
  return { code: 'ROW_TEXT', reason, remedy: 'Type the row again, and save the sheet as CSV (UTF-8).' };
}
