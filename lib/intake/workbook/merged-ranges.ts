import type { Readable } from 'node:stream';

/** Cells that were merged to one, 0-based and inclusive. */
export interface MergedRange {
  firstRow: number;
  lastRow: number;
  firstColumn: number;
  lastColumn: number;
}

/** Beyond this many a worksheet's merged cells are left as they are. */
const MOST_RANGES = 20_000;

/**
 * The merged ranges of a worksheet. They stand behind its rows, so that a pass over the bytes comes first; it looks for
 * their elements alone, which is far quicker than reading the XML.
 */
export async function readMergedRanges(source: Readable): Promise<MergedRange[]> {
  const ranges: MergedRange[] = [];
  let tail = '';
  for await (const bytes of source as AsyncIterable<Buffer>) {
    if (tail === '' && bytes.indexOf('mergeCell') < 0) {
      tail = lastCharacters(bytes.toString('latin1'));
      continue;
    }
    const text = tail + bytes.toString('latin1');
    for (const [, ref] of text.matchAll(
      /<(?:\w+:)?mergeCell\s[^>]*?ref="([A-Z]{1,3}\d{1,7}:[A-Z]{1,3}\d{1,7})"/g,
    )) {
      const range = rangeOf(ref!);
      if (range && ranges.length < MOST_RANGES) ranges.push(range);
    }
    tail = lastCharacters(text);
  }
  return ranges;
}

/** What may be the beginning of an element that the next piece ends. */
function lastCharacters(text: string): string {
  const open = text.lastIndexOf('<');
  return open >= 0 && open > text.length - 100 && text.indexOf('>', open) < 0 ? text.slice(open) : '';
}

function rangeOf(ref: string): MergedRange | null {
  const [from, to] = ref.split(':').map(placeOf);
  if (!from || !to || to.row < from.row || to.column < from.column) return null;
  return { firstRow: from.row, lastRow: to.row, firstColumn: from.column, lastColumn: to.column };
}

/** Row and column of `AB12`, 0-based; null where it is no reference. */
export function placeOf(ref: string): { row: number; column: number } | null {
  let [column, at] = [0, 0];
  for (; at < ref.length; at++) {
    const letter = ref.charCodeAt(at) - 64;
    if (letter < 1 || letter > 26) break;
    column = column * 26 + letter;
  }
  const row = Number(ref.slice(at));
  return at > 0 && at < 4 && row >= 1 && row <= 1_048_576 ? { row: row - 1, column: column - 1 } : null;
}
