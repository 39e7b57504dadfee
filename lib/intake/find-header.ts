import { parse } from 'csv-parse/sync';
import { COLUMNS, type Column, columnOf, HEADING, NEEDED } from './columns';
import { SheetError } from './sheet-error';
import type { Line } from './split-lines';

export interface Header {
  /** Line on which it stands. */
  line: number;
  delimiter: string;
  /** All headings as written, without blanks around. */
  headings: string[];
  /** Place of each column that the sheet has. */
  places: ReadonlyMap<Column, number>;
}

/** Lines among which the headings are sought: titles and blank lines may stand before them. */
export const HEADER_LINES = 10;

/**
 * The line of headings, its delimiter (comma, semicolon, tab or bar) and the columns that it names, in any order.
 *
 * @param lines the first lines of the sheet
 * @throws SheetError when no line looks like headings, or needed columns are missing, or one stands there twice
 */
export function findHeader(lines: readonly Line[]): Header {
  let best: Header | null = null;
  for (const { text, number } of lines) {
    for (const delimiter of [',', ';', '\t', '|']) {
      const header = readHeader(text, number, delimiter);
      if (header && header.places.size > (best?.places.size ?? 0)) best = header;
    }
  }
  if (!best || best.places.size < 3) {
    const start = lines.find(({ text }) => text.trim() !== '')?.text.trim() ?? '';
    if (start === '') {
      throw new SheetError('EMPTY', 'The file holds no text.', 'Save the sheet as CSV again.');
    }
    throw new SheetError(
      'NOT_A_SHEET',
      `No headings were found in the first lines. The file begins with “${shown(start)}”.`,
      `A sheet is CSV with a line of headings such as ${NEEDED.map((column) => HEADING[column]).join(', ')}.`,
    );
  }
  checkColumns(best);
  return best;
}

function readHeader(text: string, line: number, delimiter: string): Header | null {
  let cells: string[] | undefined;
  try {
    [cells] = parse(text, { delimiter, relax_quotes: true, ltrim: true, relax_column_count: true });
  } catch {
    return null;
  }
  const headings = (cells ?? []).map((cell) => cell.trim());
  const places = new Map<Column, number>();
  headings.forEach((heading, place) => {
    const column = columnOf(heading);
    if (column && !places.has(column)) places.set(column, place);
  });
  return { line, delimiter, headings, places };
}

function checkColumns({ headings, places, line }: Header): void {
  for (const column of COLUMNS) {
    const named = headings.filter((heading) => columnOf(heading) === column);
    if (named.length > 1) {
      throw new SheetError(
        'COLUMN_TWICE',
        `The headings ${named.map((heading) => `“${heading}”`).join(' and ')} mean the same column.`,
        'Rename or remove one of them.',
        line,
      );
    }
  }
  const missing = NEEDED.filter((column) => !places.has(column));
  if (missing.length === 0) return;
  throw new SheetError(
    'COLUMNS_MISSING',
    `Needed columns are missing: ${missing.map((column) => HEADING[column]).join(', ')}. Found: ${shown(
      headings.filter((heading) => heading !== '').join(', '),
      400,
    )}.`,
    'Add the columns, or name them as listed here.',
    line,
  );
}

function shown(text: string, most = 60): string {
  return text.length > most ? `${text.slice(0, most)}…` : text;
}
