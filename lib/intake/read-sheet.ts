import { parse } from 'csv-parse/sync';
import { createAssembler, type RecordText } from './assemble-records';
import { type ByteSource, decodeStream } from './decode-sheet';
import { findHeader, HEADER_LINES, type Header } from './find-header';
import { type LaboratoryProfile, NEW_LABORATORY } from './laboratory-profile';
import { SheetError } from './sheet-error';
import { createRowMaker, type SheetRow } from './sheet-row';
import { createLineSplitter, type Line } from './split-lines';

export interface ReadOptions {
  /** What is remembered of the laboratory; nothing unless given. */
  profile?: LaboratoryProfile;
  /** Told of the headings before the first row. */
  onHeader?: ((header: Header) => void) | undefined;
}

/**
 * Reads a laboratory's sheet row by row: CSV in any usual encoding, delimited by comma, semicolon, tab or bar, headings
 * in any order. Blank lines are no records. A row that cannot be read is handed on as broken and does not stop the
 * others. Memory: one piece of the source and a batch of 500 rows.
 *
 * @param source bytes, or a stream of them
 * @throws SheetError when the source is no such sheet: within its first 256 KiB
 */
export async function* readSheet(
  source: ByteSource,
  { profile = NEW_LABORATORY, onHeader }: ReadOptions = {},
): AsyncGenerator<SheetRow> {
  const splitter = createLineSplitter();
  let head: Line[] | null = [];
  let reader: ReturnType<typeof createRowReader> | null = null;
  let seen = 0;
  for await (const text of decodeStream(source)) {
    seen += text.length;
    for (const line of splitter.push(text)) {
      if (reader) for (const row of reader.push(line)) yield row;
      else head!.push(line);
    }
    if (reader === null && (head!.length > HEADER_LINES || seen > HEAD_CHARACTERS)) {
      const begun: Line[] = head!.length > 0 ? head! : splitter.end();
      [reader, head] = [startReading(begun, profile, onHeader), null];
      for (const row of reader.begin()) yield row;
    }
  }
  for (const line of splitter.end()) {
    if (reader) for (const row of reader.push(line)) yield row;
    else head!.push(line);
  }
  if (reader === null) {
    reader = startReading(head!, profile, onHeader);
    for (const row of reader.begin()) yield row;
  }
  for (const row of reader.end()) yield row;
}

const HEAD_CHARACTERS = 262_144;
const BATCH = 500;
const NONE: readonly SheetRow[] = [];

function startReading(lines: readonly Line[], profile: LaboratoryProfile, onHeader: ReadOptions['onHeader']) {
  const header = findHeader(lines.slice(0, HEADER_LINES), profile);
  onHeader?.(header);
  const rest = lines.filter(({ number }) => number > header.line);
  return createRowReader(header, rest, profile);
}

function createRowReader(header: Header, first: readonly Line[], profile: LaboratoryProfile) {
  const assembler = createAssembler(header.delimiter, header.headings.length);
  const toRow = createRowMaker(header, profile);
  let batch: RecordText[] = [];

  const flush = (): SheetRow[] => {
    const fields = parseFields(batch, header.delimiter);
    const rows = batch.map((record, i) => toRow(record, fields[i]!));
    batch = [];
    return rows;
  };
  const push = (line: Line): readonly SheetRow[] => {
    for (const record of assembler.push(line)) batch.push(record);
    return batch.length >= BATCH ? flush() : NONE;
  };
  return {
    begin: () => first.flatMap(push),
    push,
    end() {
      for (const record of assembler.end()) batch.push(record);
      const rows = flush();
      if (toRow.count() > 0) return rows;
      const what = 'There are headings but no rows.';
      throw new SheetError('NO_RECORDS', what, 'Add the records below them.', header.line);
    },
  };
}

/** Fields of each record; [] for a broken one. */
function parseFields(batch: readonly RecordText[], delimiter: string): string[][] {
  const whole = batch.filter(({ broken }) => broken === null).map(({ text }) => text);
  const options = {
    delimiter,
    relax_quotes: true,
    ltrim: true,
    relax_column_count: true,
    record_delimiter: '\n',
  };
  const parsed: string[][] = whole.length === 0 ? [] : parse(whole.join('\n'), options);
  if (parsed.length !== whole.length) {
    throw new Error(`Of ${whole.length} records the CSV parser made ${parsed.length}.`);
  }
  let next = 0;
  return batch.map(({ broken }) => (broken === null ? parsed[next++]! : []));
}
