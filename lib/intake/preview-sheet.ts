import { createReadStream } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { COLUMNS, type Column, NEEDED } from './columns';
import { decodeStream } from './decode-sheet';
import {
  type CellRow,
  columnFor,
  HEADER_LINES,
  type Header,
  likelyHeader,
  likelyHeaderRow,
} from './find-header';
import type { LaboratoryProfile } from './laboratory-profile';
import { isZip } from './read-any-sheet';
import { SheetError } from './sheet-error';
import { createLineSplitter, type Line } from './split-lines';
import { firstWorkbookRows } from './workbook/read-workbook';

/** What a person is shown of a sheet to say what its headings mean. */
export interface SheetPreview {
  /** Line on which the headings stand. */
  line: number;
  headings: { heading: string; column: Column | null; values: string[] }[];
  /** What each column that it lacks is taken to say. */
  lacking: Header['lacking'];
  /** Columns of which one of each line is needed, and none is there. */
  missing: readonly (readonly Column[])[];
  /** Columns that several headings mean. */
  twice: Column[];
}

/** Values that are shown of a heading. */
const VALUES = 3;
const HEAD_CHARACTERS = 262_144;

/**
 * The line of a sheet (CSV or workbook) that is most likely its headings, with what each is taken to mean and its first
 * values. Nothing that is missing is an error here: a person says what it means.
 *
 * @throws SheetError when the file holds no text, or is no text and no workbook
 */
export async function previewSheet(path: string, profile: LaboratoryProfile): Promise<SheetPreview> {
  const { header, rows } = (await isZip(path))
    ? likeliest(await firstWorkbookRows(path), profile)
    : await firstOfText(path, profile);
  if (!header)
    throw new SheetError('EMPTY', 'The file holds no text.', 'Save the sheet again, with its rows.');
  const headings = header.headings.map((heading, place) => ({
    heading,
    column: columnFor(heading, profile),
    values: rows
      .filter(({ line }) => line > header.line)
      .flatMap(({ cells }) => cells[place]?.trim() || [])
      .slice(0, VALUES),
  }));
  const { line, places, lacking } = header;
  const count = (column: Column) => headings.filter((one) => one.column === column).length;
  return {
    ...{ line, headings, lacking },
    missing: NEEDED.filter((ways) => !ways.some((column) => places.has(column) || lacking[column])),
    twice: COLUMNS.filter((column) => count(column) > 1),
  };
}

interface First {
  header: Header | null;
  rows: readonly CellRow[];
}

/** Of several worksheets the one whose headings name most columns. */
function likeliest(worksheets: readonly CellRow[][], profile: LaboratoryProfile): First {
  let best: First = { header: null, rows: [] };
  for (const rows of worksheets) {
    const header = likelyHeaderRow(rows, profile);
    if (header && header.places.size > (best.header?.places.size ?? -1)) best = { header, rows };
  }
  return best;
}

async function firstOfText(path: string, profile: LaboratoryProfile): Promise<First> {
  const lines = await firstLines(path);
  const header = likelyHeader(lines.slice(0, HEADER_LINES), profile);
  if (!header) return { header, rows: [] };
  const { delimiter } = header;
  return {
    header,
    rows: lines.map(({ number, text }) => ({ line: number, cells: cellsOf(text, delimiter) })),
  };
}

async function firstLines(path: string): Promise<Line[]> {
  const splitter = createLineSplitter();
  const lines: Line[] = [];
  let seen = 0;
  const source = createReadStream(path, { highWaterMark: 32_768 });
  try {
    for await (const text of decodeStream(source)) {
      seen += text.length;
      lines.push(...splitter.push(text));
      if (lines.length > HEADER_LINES + VALUES || seen > HEAD_CHARACTERS) return lines;
    }
    return [...lines, ...splitter.end()];
  } finally {
    source.destroy();
  }
}

/** A text that runs over several lines is cut where its first line ends: it is only looked at. */
function cellsOf(text: string, delimiter: string): string[] {
  try {
    return parse(text, { delimiter, relax_quotes: true, ltrim: true, relax_column_count: true })[0] ?? [];
  } catch {
    return text.split(delimiter);
  }
}
