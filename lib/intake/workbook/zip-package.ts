import type { Readable } from 'node:stream';
import { type Entry, openPromise, type ZipFile } from 'yauzl';
import { SheetError } from '../sheet-error';

/** The parts of a workbook file, which is a ZIP (ECMA-376, part 2). */
export interface Package {
  /** A part as a stream of bytes; null where there is none. Names are compared without case. */
  open(name: string): Promise<Readable | null>;
  close(): void;
}

/** More parts than a workbook has. */
const MOST_PARTS = 10_000;
/** A part that unpacks beyond this size may not be packed more tightly than this: that is a bomb, no workbook. */
const LARGE_BYTES = 100_000_000;
const TIGHTEST = 200;
/** A worksheet of a million rows and some twenty columns has about 0.8 GB. */
const MOST_BYTES = 4_000_000_000;

/**
 * Opens a workbook file. Only parts that are asked for are unpacked, as they are read, never by the file's own paths, and
 * none beyond the size that it states.
 *
 * @throws SheetError where the file is no ZIP, is damaged, or states sizes that no workbook has
 */
export async function openPackage(path: string): Promise<Package> {
  const zip = await openPromise(path, { autoClose: false, validateEntrySizes: true }).catch(damaged);
  try {
    const parts = await partsOf(zip);
    return {
      async open(name) {
        const entry = parts.get(name.replace(/^\//, '').toLowerCase());
        if (!entry) return null;
        const source = await zip.openReadStreamPromise(entry).catch(damaged);
        // The library tells of damage without ending the stream: a reader that listens later would wait for ever.
        return source.on('error', (error) => source.destroy(error));
      },
      close: () => zip.close(),
    };
  } catch (error) {
    zip.close();
    throw error;
  }
}

async function partsOf(zip: ZipFile): Promise<Map<string, Entry>> {
  const parts = new Map<string, Entry>();
  try {
    for await (const entry of zip.eachEntry()) {
      if (parts.size >= MOST_PARTS) throw bomb(`it holds more than ${MOST_PARTS.toLocaleString('en')} parts`);
      checkSize(entry);
      parts.set(entry.fileName.toLowerCase(), entry);
    }
  } catch (error) {
    damaged(error);
  }
  return parts;
}

function checkSize({ fileName, compressedSize, uncompressedSize }: Entry): void {
  const size = `${Math.round(uncompressedSize / 1e6).toLocaleString('en')} MB`;
  if (uncompressedSize > MOST_BYTES) throw bomb(`its part “${fileName.slice(0, 60)}” unpacks to ${size}`);
  if (uncompressedSize > LARGE_BYTES && uncompressedSize > TIGHTEST * compressedSize)
    throw bomb(`its part “${fileName.slice(0, 60)}” unpacks ${TIGHTEST} times and more, to ${size}`);
}

function bomb(what: string): SheetError {
  return new SheetError(
    'WORKBOOK_TOO_LARGE',
    `The workbook was not opened: ${what}.`,
    'Save the one worksheet that holds the records as CSV (UTF-8) and send that file.',
  );
}

/** What the ZIP reader objects to is damage, or a way of packing that no spreadsheet program uses. */
export function damaged(error: unknown): never {
  if (error instanceof SheetError) throw error;
  const what = error instanceof Error ? error.message : String(error);
  throw damagedWorkbook(what);
}

/** The error of a workbook that cannot be read. */
export function damagedWorkbook(what: string): SheetError {
  return new SheetError(
    'WORKBOOK_DAMAGED',
    `The workbook cannot be read: ${what.replace(/\.$/, '')}.`,
    'Open it in the spreadsheet program and save it again as XLSX or CSV (UTF-8).',
  );
}
