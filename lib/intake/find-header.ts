import { parse } from 'csv-parse/sync';
import { COLUMNS, type Column, columnOf, HEADING, headingKey, NEEDED, USUAL_LACKING } from './columns';
import { type LaboratoryProfile, NEW_LABORATORY } from './laboratory-profile';
import { BY_RUN } from './read-check';
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
  /** What each column that it lacks is taken to say in every row. */
  lacking: Partial<Record<Column, string>>;
}

/** Lines among which the headings are sought: titles and blank lines may stand before them. */
export const HEADER_LINES = 10;

/**
 * The line of headings, its delimiter (comma, semicolon, tab or bar) and the columns that it names, in any order: by what
 * is remembered of the laboratory, else by the trade's usual words.
 *
 * @param lines the first lines of the sheet
 * @throws SheetError when no line looks like headings, or needed columns are missing, or one stands there twice
 */
export function findHeader(lines: readonly Line[], profile: LaboratoryProfile = NEW_LABORATORY): Header {
  const best = likelyHeader(lines, profile);
  const start = lines.find(({ text }) => text.trim() !== '')?.text.trim() ?? '';
  return checkedHeader(best, start, profile);
}

/** The line that is most likely the headings, whatever it lacks; null where none has a word in it. */
export function likelyHeader(lines: readonly Line[], profile: LaboratoryProfile): Header | null {
  let best: Header | null = null;
  for (const { text, number } of lines) {
    for (const delimiter of [',', ';', '\t', '|']) {
      const headings = splitHeadings(text, delimiter);
      best = likelier(headings && headerOf(headings, { line: number, delimiter, profile }), best);
    }
  }
  return best;
}

/** The same of rows that are cells already. */
export function findHeaderRow(rows: readonly CellRow[], profile: LaboratoryProfile = NEW_LABORATORY): Header {
  const best = likelyHeaderRow(rows, profile);
  return checkedHeader(best, rows[0]?.cells.join(' ').trim() ?? '', profile);
}

/** A row that is cells already, and its line. */
export interface CellRow {
  line: number;
  cells: readonly string[];
}

/** As `likelyHeader`, of rows that are cells already. */
export function likelyHeaderRow(rows: readonly CellRow[], profile: LaboratoryProfile): Header | null {
  let best: Header | null = null;
  for (const { line, cells } of rows)
    best = likelier(headerOf(cells, { line, delimiter: '', profile }), best);
  return best;
}

/** The one that names more columns; where both name as many, the one with more headings; else the earlier. */
function likelier(header: Header | null, best: Header | null): Header | null {
  if (!header || header.headings.every((heading) => heading === '')) return best;
  if (!best || header.places.size > best.places.size) return header;
  if (header.places.size < best.places.size) return best;
  const words = ({ headings }: Header) => headings.filter((heading) => heading !== '').length;
  return header.places.size === 0 && words(header) > words(best) ? header : best;
}

/** The column that a heading means: as remembered, else by the usual words; null where it is left aside or unknown. */
export function columnFor(heading: string, { headings }: LaboratoryProfile): Column | null {
  const remembered = headings[headingKey(heading)];
  return remembered === undefined ? columnOf(heading) : remembered;
}

function splitHeadings(text: string, delimiter: string): string[] | null {
  try {
    const [cells] = parse(text, { delimiter, relax_quotes: true, ltrim: true, relax_column_count: true });
    return cells ?? [];
  } catch {
    return null;
  }
}

function headerOf(
  cells: readonly string[],
  { profile, ...where }: { line: number; delimiter: string; profile: LaboratoryProfile },
): Header {
  const headings = cells.map((cell) => cell.replace(/\s+/g, ' ').trim());
  const places = new Map<Column, number>();
  headings.forEach((heading, place) => {
    const column = columnFor(heading, profile);
    if (column && !places.has(column)) places.set(column, place);
  });
  const known = Object.entries({ ...USUAL_LACKING, ...profile.lacking }) as [Column, string][];
  const lacking = Object.fromEntries(known.filter(([column]) => !places.has(column)));
  // Where runs have check rows of their own, these speak for the trays.
  if (places.has('run') && !places.has('check') && !places.has('checkAlive')) lacking.check ??= BY_RUN;
  return { ...where, headings, places, lacking };
}

function checkedHeader(header: Header | null, start: string, profile: LaboratoryProfile): Header {
  if (!header || header.places.size < 3) {
    if (start === '') {
      throw new SheetError('EMPTY', 'The file holds no text.', 'Save the sheet as CSV again.');
    }
    throw new SheetError(
      'NOT_A_SHEET',
      `No headings were found in the first lines. The file begins with “${shown(start)}”.`,
      `A sheet has a line of headings such as ${NEEDED.map(([column]) => HEADING[column!]).join(', ')}.`,
    );
  }
  checkColumns(header, profile);
  return header;
}

function checkColumns({ headings, places, lacking, line }: Header, profile: LaboratoryProfile): void {
  for (const column of COLUMNS) {
    const named = headings.filter((heading) => columnFor(heading, profile) === column);
    if (named.length > 1) {
      throw new SheetError(
        'COLUMN_TWICE',
        `The headings ${named.map((heading) => `“${heading}”`).join(' and ')} mean the same column.`,
        'Rename one of them, or say once which is meant: npm run laboratory -- NAME --heading "HEADING=-".',
        line,
      );
    }
  }
  const missing = NEEDED.filter((ways) => !ways.some((column) => places.has(column) || lacking[column]));
  if (missing.length === 0) return;
  const names = missing.map((ways) => ways.map((column) => HEADING[column]).join(' or '));
  const first = missing[0]![0]!;
  throw new SheetError(
    'COLUMNS_MISSING',
    `Needed columns are missing: ${names.join(', ')}. Found: ${shown(
      headings.filter((heading) => heading !== '').join(', '),
      400,
    )}.`,
    `If a heading means one of them, say so once: npm run laboratory -- NAME --heading "THEIR HEADING=${first}". If every row would say the same: --lacking "${first}=TEXT".`,
    line,
  );
}

function shown(text: string, most = 60): string {
  return text.length > most ? `${text.slice(0, most)}…` : text;
}
