import { SheetError } from './sheet-error';

/** `utf-8 or windows-1252` is decided while reading, by the first byte that cannot be UTF-8. */
export type Encoding = 'utf-8 or windows-1252' | 'utf-16le' | 'utf-16be';

/** How many bytes are looked at. */
export const HEAD_BYTES = 65_536;

/**
 * The encoding of a sheet, from its first bytes: by mark, or for UTF-16 without mark by where its NULs stand.
 *
 * @param head the first bytes of the file, 64 KiB or all of it
 * @throws SheetError when the file is empty, is no text (named where its first bytes say what it is), or holds NULs
 */
export function sniffEncoding(head: Uint8Array): Encoding {
  if (head.length === 0) throw new SheetError('EMPTY', 'The file is empty.', 'Save the sheet as CSV again.');
  const magic = MAGIC.find(({ bytes }) => bytes.every((byte, i) => head[i] === byte));
  if (magic) throw new SheetError('NOT_TEXT', `This is ${magic.what}, not a CSV sheet.`, magic.remedy);
  if (head[0] === 0xff && head[1] === 0xfe) return 'utf-16le';
  if (head[0] === 0xfe && head[1] === 0xff) return 'utf-16be';

  const [even, odd] = nulShares(head);
  if (odd > 0.5 && even < 0.1) return 'utf-16le';
  if (even > 0.5 && odd < 0.1) return 'utf-16be';
  const line = lineOf(head, 0);
  if (line !== null) throw new SheetError('NOT_TEXT', 'The file holds NUL bytes: it is no text.', SAVE, line);
  if (controlShare(head) > 0.02) {
    throw new SheetError('NOT_TEXT', 'The file is binary data, not text.', SAVE);
  }
  return 'utf-8 or windows-1252';
}

const SAVE = 'Save the sheet as CSV (UTF-8) and send that file.';
const WORKBOOK =
  'Open it in the spreadsheet program and save it as XLSX without a password, or as CSV (UTF-8).';

/** First bytes of files that are met in place of a CSV (open format descriptions; from memory). */
const MAGIC: readonly { bytes: number[]; what: string; remedy: string }[] = [
  { bytes: [0x50, 0x4b], what: 'a ZIP, and no workbook that can be read', remedy: WORKBOOK },
  {
    bytes: [0xd0, 0xcf, 0x11, 0xe0],
    what: 'an old workbook (XLS) or one that is locked with a password',
    remedy: WORKBOOK,
  },
  { bytes: [0x25, 0x50, 0x44, 0x46], what: 'a PDF', remedy: 'Ask the laboratory for the sheet as CSV.' },
  { bytes: [0x1f, 0x8b], what: 'a compressed file (gzip)', remedy: 'Unpack it and send the CSV.' },
  { bytes: [0x89, 0x50, 0x4e, 0x47], what: 'a picture (PNG)', remedy: SAVE },
  { bytes: [0xff, 0xd8, 0xff], what: 'a picture (JPEG)', remedy: SAVE },
  { bytes: [0xff, 0xfe, 0x00, 0x00], what: 'a UTF-32 text', remedy: SAVE },
];

/** Share of NULs among the bytes at even and at odd places. */
function nulShares(head: Uint8Array): [number, number] {
  const counts = [0, 0];
  head.forEach((byte, i) => {
    if (byte === 0) counts[i % 2]!++;
  });
  return [counts[0]! / Math.ceil(head.length / 2), counts[1]! / Math.max(1, Math.floor(head.length / 2))];
}

function controlShare(head: Uint8Array): number {
  const controls = head.filter(
    (byte) => byte < 32 && byte !== 9 && byte !== 10 && byte !== 12 && byte !== 13,
  );
  return controls.length / head.length;
}

/** Line on which a byte first stands, or null. */
function lineOf(head: Uint8Array, byte: number): number | null {
  const at = head.indexOf(byte);
  if (at < 0) return null;
  return head.subarray(0, at).filter((one) => one === 10).length + 1;
}
