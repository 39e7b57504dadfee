import type { RecordText } from '../assemble-records';
import { findHeaderRow, HEADER_LINES, type Header } from '../find-header';
import { NEW_LABORATORY } from '../laboratory-profile';
import type { ReadOptions } from '../read-sheet';
import { SheetError } from '../sheet-error';
import { createRowMaker, type SheetRow } from '../sheet-row';
import { readCellStyles } from './cell-styles';
import type { CellContext } from './cell-text';
import { type MergedRange, readMergedRanges } from './merged-ranges';
import { readRows, readRowsInBatches, type WorksheetNotes, type WorksheetRow } from './read-rows';
import { readSharedStrings } from './shared-strings';
import { readWorkbookParts, type Worksheet } from './workbook-parts';
import { damaged, openPackage, type Package } from './zip-package';

export interface WorkbookOptions extends ReadOptions {
  /** Told in words, at the end, what was met in the workbook that a person should know. */
  onNote?: ((note: string) => void) | undefined;
}

/**
 * Reads a laboratory's workbook (XLSX, also XLSM, whose macros are left alone), the rows of one piece at a time: the first visible worksheet
 * that has headings. Formulas give the value that they had when the file was saved; hidden worksheets are not read, hidden
 * rows are. Memory: the shared texts and the rows of one piece of the file.
 *
 * @throws SheetError when the file is no such workbook, is damaged or too large, or no worksheet has headings
 */
export async function* readWorkbookInBatches(
  path: string,
  { profile = NEW_LABORATORY, onHeader, onNote }: WorkbookOptions = {},
): AsyncGenerator<SheetRow[]> {
  const file = await openPackage(path);
  try {
    const { worksheets, ...parts } = await readWorkbookParts(file);
    const context = await contextOf(file, parts);
    const visible = worksheets.filter(({ hidden }) => !hidden);
    const { sheet, merged, header } = await findWorksheet(file, visible, { context, profile });
    onHeader?.(header);
    const notes = emptyNotes();
    yield* dataRows(
      readRowsInBatches((await file.open(sheet.part))!, context, merged, notes),
      header,
      profile,
    );
    for (const note of wordsOf(notes, sheet, worksheets)) onNote?.(note);
  } finally {
    file.close();
  }
}

async function contextOf(
  file: Package,
  parts: Omit<Awaited<ReturnType<typeof readWorkbookParts>>, 'worksheets'>,
): Promise<CellContext> {
  return {
    from1904: parts.from1904,
    sharedStrings: await wholePart(file, parts.sharedStrings, readSharedStrings),
    styles: await wholePart(file, parts.styles, readCellStyles),
  };
}

async function wholePart<T>(
  file: Package,
  name: string | null,
  read: (source: NonNullable<Awaited<ReturnType<Package['open']>>>) => Promise<T[]>,
): Promise<T[]> {
  const source = name === null ? null : await file.open(name);
  return source ? read(source) : [];
}

/** The first worksheet with headings; where none has, the reason of the first one. */
async function findWorksheet(
  file: Package,
  worksheets: readonly Worksheet[],
  { context, profile }: { context: CellContext; profile: NonNullable<WorkbookOptions['profile']> },
): Promise<{ sheet: Worksheet; merged: MergedRange[]; header: Header }> {
  let reason: SheetError | null = null;
  for (const sheet of worksheets) {
    const merged = await wholePart(file, sheet.part, (source) => readMergedRanges(source).catch(damaged));
    const rows = await firstRows(file, sheet, context, merged);
    try {
      return { sheet, merged, header: findHeaderRow(rows, profile) };
    } catch (error) {
      if (!(error instanceof SheetError)) throw error;
      reason ??= error;
    }
  }
  throw (
    reason ??
    new SheetError(
      'EMPTY',
      'The workbook has no visible worksheet.',
      'Unhide the one that holds the records, or save it as CSV.',
    )
  );
}

async function firstRows(
  file: Package,
  { part }: Worksheet,
  context: CellContext,
  merged: readonly MergedRange[],
): Promise<WorksheetRow[]> {
  const rows: WorksheetRow[] = [];
  const source = await file.open(part);
  if (!source) return rows;
  for await (const row of readRows(source, context, merged, emptyNotes())) {
    if (rows.push(row) >= HEADER_LINES) break;
  }
  return rows;
}

/**
 * The first rows of each visible worksheet, for somebody to say what the headings mean.
 *
 * @throws SheetError when the file is no such workbook, is damaged or too large
 */
export async function firstWorkbookRows(path: string): Promise<WorksheetRow[][]> {
  const file = await openPackage(path);
  try {
    const { worksheets, ...parts } = await readWorkbookParts(file);
    const context = await contextOf(file, parts);
    const found: WorksheetRow[][] = [];
    for (const sheet of worksheets.filter(({ hidden }) => !hidden)) {
      const merged = await wholePart(file, sheet.part, (source) => readMergedRanges(source).catch(damaged));
      found.push(await firstRows(file, sheet, context, merged));
    }
    return found;
  } finally {
    file.close();
  }
}

async function* dataRows(
  batches: AsyncIterable<readonly WorksheetRow[]>,
  header: Header,
  profile: NonNullable<WorkbookOptions['profile']>,
): AsyncGenerator<SheetRow[]> {
  const toRow = createRowMaker(header, profile);
  const width = header.headings.length;
  for await (const rows of batches) {
    const data = rows.filter(({ line }) => line > header.line);
    yield data.map(({ line, cells }) => {
      const fields = cells.map((text) => text.trim());
      while (fields.length > width && fields.at(-1) === '') fields.pop();
      while (fields.length < width) fields.push('');
      return toRow(recordOf(line, fields, width), fields);
    });
  }
  if (toRow.count() > 0) return;
  const what = 'There are headings but no rows.';
  throw new SheetError('NO_RECORDS', what, 'Add the records below them.', header.line);
}

/** What the rest of intake is told of a row: its text is only wanted where it is broken. */
function recordOf(line: number, fields: readonly string[], width: number): RecordText {
  const characters = fields.reduce((sum, text) => sum + text.length, 0);
  const broken = fields.length > width ? 'fields' : characters > MOST_CHARACTERS ? 'long' : null;
  return { line, text: broken ? fields.join(' | ') : '', broken, fields: fields.length };
}

/** As of CSV. */
const MOST_CHARACTERS = 262_144;

function emptyNotes(): WorksheetNotes {
  return { formulas: 0, withoutValue: 0, hiddenRows: 0, merged: 0 };
}

function wordsOf(notes: WorksheetNotes, read: Worksheet, worksheets: readonly Worksheet[]): string[] {
  const others = worksheets.filter((sheet) => sheet !== read);
  const names = (list: readonly Worksheet[]) => list.map(({ name }) => `“${name}”`).join(', ');
  const hidden = others.filter((sheet) => sheet.hidden);
  const visible = others.filter((sheet) => !sheet.hidden);
  const said: [boolean, string][] = [
    [others.length > 0, `Worksheet “${read.name}” was read.`],
    [
      visible.length > 0,
      `Not read: ${names(visible)}. A worksheet with records is imported as a file of its own.`,
    ],
    [hidden.length > 0, `Hidden worksheets were not read: ${names(hidden)}.`],
    [notes.hiddenRows > 0, `${notes.hiddenRows} hidden rows were read like the others.`],
    [notes.merged > 0, `${notes.merged} merged ranges: their value was taken for each of their rows.`],
    [
      notes.formulas > 0,
      `${notes.formulas} cells hold formulas: the values that they had when the file was saved were read.`,
    ],
    [
      notes.withoutValue > 0,
      `${notes.withoutValue} formulas have no saved value: their cells were read as empty.`,
    ],
  ];
  return said.filter(([holds]) => holds).map(([, words]) => words);
}
