import type { Readable } from 'node:stream';
import { SheetError } from '../sheet-error';
import { type CellContext, cellText, type RawCell } from './cell-text';
import { type MergedRange, placeOf } from './merged-ranges';
import { readXml } from './read-xml';
import { createTextCollector } from './shared-strings';

/** A row of a worksheet that holds something. */
export interface WorksheetRow {
  /** 1-based number of the row in the worksheet. */
  line: number;
  cells: string[];
}

/** What was met on the way that a person should know. */
export interface WorksheetNotes {
  formulas: number;
  /** Formulas whose last value is not kept in the file; their cells read as empty. */
  withoutValue: number;
  /** Rows that were hidden in the program, and are read. */
  hiddenRows: number;
  merged: number;
}

/** The most columns that a worksheet can have (ECMA-376). */
const MOST_COLUMNS = 16_384;

/**
 * The rows of a worksheet, in their order, as texts (ECMA-376, part 1, 18.3.1). A value in merged cells stands in each of
 * them: people merge for “the same as above”. Memory: the rows of one piece of the file.
 *
 * @throws SheetError where the XML is damaged or a row has more columns than there can be
 */
export async function* readRows(
  ...worksheet: Parameters<typeof readRowsInBatches>
): AsyncGenerator<WorksheetRow> {
  for await (const rows of readRowsInBatches(...worksheet)) yield* rows;
}

/** The same, the rows of one piece of the file at a time. */
export async function* readRowsInBatches(
  source: Readable,
  context: CellContext,
  merged: readonly MergedRange[],
  notes: WorksheetNotes,
): AsyncGenerator<WorksheetRow[]> {
  const fill = createFiller(merged, notes);
  let ready: WorksheetRow[] = [];
  const reader = createRowReader(context, notes, (row) => {
    fill(row);
    if (row.cells.some((text) => text !== '')) ready.push(row);
  });
  for await (const _ of readXml(source, reader)) {
    yield ready;
    ready = [];
  }
}

function createRowReader(context: CellContext, notes: WorksheetNotes, done: (row: WorksheetRow) => void) {
  const inline = createTextCollector();
  let line = 0;
  let cells: string[] = [];
  let column = -1;
  let cell: RawCell = { type: '', style: 0, value: '' };
  let [inValue, inRow, hasFormula] = [false, false, false];
  return {
    open(name: string, attributes: Readonly<Record<string, string>>) {
      if (name === 'c') {
        const place = attributes.r === undefined ? null : placeOf(attributes.r);
        column = place?.column ?? column + 1;
        if (column >= MOST_COLUMNS) throw tooWide(line);
        cell = { type: attributes.t ?? '', style: Number(attributes.s ?? 0), value: '' };
        hasFormula = false;
      } else if (name === 'v') inValue = true;
      else if (name === 'f') hasFormula = true;
      else if (name === 'row') {
        const number = Number(attributes.r);
        line = Number.isInteger(number) && number >= 1 && number <= 1_048_576 ? number : line + 1;
        [cells, column, inRow] = [[], -1, true];
        if (attributes.hidden === '1' || attributes.hidden === 'true') notes.hiddenRows++;
      } else inline.open(name);
    },
    text(piece: string) {
      if (inValue) cell.value += piece;
      else inline.text(piece);
    },
    close(name: string) {
      if (name === 'v') inValue = false;
      else if (name === 'c' && inRow) {
        const typed = inline.take();
        const text = cell.type === 'inlineStr' ? typed : cellText(cell, context);
        if (hasFormula) notes.formulas++;
        if (hasFormula && cell.value === '') notes.withoutValue++;
        while (cells.length < column) cells.push('');
        cells[column] = text;
      } else if (name === 'row') {
        inRow = false;
        done({ line, cells });
      } else inline.close(name);
    },
  };
}

/** Puts the value of merged cells into each of them. */
function createFiller(merged: readonly MergedRange[], notes: WorksheetNotes): (row: WorksheetRow) => void {
  const waiting = merged
    .filter(({ lastColumn }) => lastColumn < MOST_COLUMNS)
    .sort((a, b) => a.firstRow - b.firstRow);
  notes.merged = waiting.length;
  let open: { range: MergedRange; text: string }[] = [];
  let next = 0;
  return ({ line, cells }) => {
    const row = line - 1;
    for (; next < waiting.length && waiting[next]!.firstRow <= row; next++) {
      const range = waiting[next]!;
      if (range.firstRow === row) open.push({ range, text: cells[range.firstColumn] ?? '' });
    }
    open = open.filter(({ range }) => range.lastRow >= row);
    for (const { range, text } of open) {
      // A title over many columns is no value of each of them.
      const lastColumn = range.lastRow > range.firstRow ? range.lastColumn : range.firstColumn;
      for (let column = range.firstColumn; column <= lastColumn; column++) {
        while (cells.length < column) cells.push('');
        if ((cells[column] ?? '') === '') cells[column] = text;
      }
    }
  };
}

function tooWide(line: number): SheetError {
  const what = `A row has more than ${MOST_COLUMNS.toLocaleString('en')} columns.`;
  return new SheetError('WORKBOOK_DAMAGED', what, 'Save the sheet again as XLSX or CSV (UTF-8).', line);
}
