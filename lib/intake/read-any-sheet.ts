import { createReadStream } from 'node:fs';
import { open } from 'node:fs/promises';
import { readSheetInBatches } from './read-sheet';
import type { SheetRow } from './sheet-row';
import { readWorkbookInBatches, type WorkbookOptions } from './workbook/read-workbook';

/**
 * Reads a laboratory's sheet from a file, CSV or workbook, by what it is and not by its name.
 *
 * @throws SheetError when it is neither
 */
export async function* readAnySheet(path: string, options: WorkbookOptions = {}): AsyncGenerator<SheetRow> {
  for await (const rows of readAnySheetInBatches(path, options)) yield* rows;
}

/** The same, the rows of one piece of the file at a time. */
export async function* readAnySheetInBatches(
  path: string,
  options: WorkbookOptions = {},
): AsyncGenerator<SheetRow[]> {
  yield* (await isZip(path))
    ? readWorkbookInBatches(path, options)
    : readSheetInBatches(createReadStream(path, { highWaterMark: PIECE }), options);
}

/** Bytes that are read at a time: after each, what else goes on in the process has its turn. */
const PIECE = 32_768;

/** Whether a file begins as a workbook does. */
export async function isZip(path: string): Promise<boolean> {
  const file = await open(path);
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(4), 0, 4, 0);
    return bytesRead === 4 && buffer.toString('latin1') === 'PK\u0003\u0004';
  } finally {
    await file.close();
  }
}
