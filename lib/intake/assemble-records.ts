import { scanRecord } from './scan-record';
import type { Line } from './split-lines';

/** A record as text, over one line or (a quoted field with line breaks) several, or a line that is none. */
export interface RecordText {
  line: number;
  text: string;
  broken: 'quote' | 'fields' | 'long' | 'bytes' | null;
  fields: number;
}

const MOST_LINES = 50;

/**
 * Joins lines to records of `width` fields. A quote that never closes, or closes where it cannot, breaks its own line
 * alone: reading goes on with the next line.
 */
export function createAssembler(
  delimiter: string,
  width: number,
): { push(line: Line): RecordText[]; end(): RecordText[] } {
  let waiting: Line[] = [];

  const step = (isLast: boolean): RecordText[] => {
    const records: RecordText[] = [];
    while (waiting.length > 0) {
      const taken = takeRecord(waiting, delimiter, width, isLast);
      if (taken === null) break;
      waiting = waiting.slice(taken.lines);
      if (taken.record) records.push(taken.record);
    }
    return records;
  };
  return {
    push(line) {
      if (waiting.length === 0 && !line.text.includes('"')) return plainRecord(line, delimiter, width);
      waiting.push(line);
      return step(false);
    },
    end: () => step(true),
  };
}

/** The record of a line without quotes, which is none but itself; none for a blank line. */
function plainRecord({ number, text, cut }: Line, delimiter: string, width: number): RecordText[] {
  if (isBlank(text, delimiter)) return [];
  let fields = 1;
  for (let at = text.indexOf(delimiter); at >= 0; at = text.indexOf(delimiter, at + 1)) fields++;
  if (cut) return [{ line: number, text, broken: 'long', fields: 0 }];
  if (hasBadCharacters(text)) return [{ line: number, text, broken: 'bytes', fields: 0 }];
  return [{ line: number, text, broken: fields === width ? null : 'fields', fields }];
}

/** The record at the head of some lines and how many it takes (null: more lines are needed); none for a blank line. */
function takeRecord(
  lines: readonly Line[],
  delimiter: string,
  width: number,
  isLast: boolean,
): { lines: number; record: RecordText | null } | null {
  const first = lines[0]!;
  const broken = (why: RecordText['broken'], fields = 0) => ({
    lines: 1,
    record: { line: first.number, text: first.text, broken: why, fields },
  });
  if (isBlank(first.text, delimiter)) return { lines: 1, record: null };
  if (first.cut) return broken('long');
  if (hasBadCharacters(first.text)) return broken('bytes');
  let text = first.text;
  for (let count = 1; ; count++) {
    const scan = scanRecord(text, delimiter);
    if (scan.state === 'whole' && (count === 1 || scan.fields === width)) {
      const why = scan.fields === width ? null : 'fields';
      return { lines: count, record: { line: first.number, text, broken: why, fields: scan.fields } };
    }
    if (scan.state !== 'open' || count >= MOST_LINES) return broken('quote');
    const next = lines[count];
    if (!next) return isLast ? broken('quote') : null;
    if (next.cut || hasBadCharacters(next.text)) return broken('quote');
    text += `\n${next.text}`;
  }
}

function isBlank(text: string, delimiter: string): boolean {
  for (const character of text) if (character !== delimiter && character.trim() !== '') return false;
  return true;
}

function hasBadCharacters(text: string): boolean {
  return text.includes('\ufffd') || text.includes('\0');
}
