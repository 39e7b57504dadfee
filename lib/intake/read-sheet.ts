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
 * others. Memory: the rows of one piece of the source.
 *
 * @param source bytes, or a stream of them
 * @throws SheetError when the source is no such sheet: within its first 256 KiB
 */
export async function* readSheet(source: ByteSource, options: ReadOptions = {}): AsyncGenerator<SheetRow> {
  for await (const rows of readSheetInBatches(source, options)) yield* rows;
}

/** The same, the rows of one piece of the source at a time: waiting for each of them takes longer than reading it. */
export async function* readSheetInBatches(
  source: ByteSource,
  { profile = NEW_LABORATORY, onHeader }: ReadOptions = {},
): AsyncGenerator<SheetRow[]> {
  const splitter = createLineSplitter();
  let head: Line[] | null = [];
  let reader: ReturnType<typeof createRowReader> | null = null;
  let seen = 0;
  for await (const text of decodeStream(source)) {
    seen += text.length;
    const lines = splitter.push(text);
    if (reader) yield reader.push(lines);
    else for (const line of lines) head!.push(line);
    if (reader === null && (head!.length > HEADER_LINES || seen > HEAD_CHARACTERS)) {
      const begun: Line[] = head!.length > 0 ? head! : splitter.end();
      [reader, head] = [startReading(begun, profile, onHeader), null];
      yield reader.begin();
    }
  }
  const rest = splitter.end();
  if (reader) yield reader.push(rest);
  else for (const line of rest) head!.push(line);
  if (reader === null) {
    reader = startReading(head!, profile, onHeader);
    yield reader.begin();
  }
  yield reader.end();
}

const HEAD_CHARACTERS = 262_144;

function startReading(lines: readonly Line[], profile: LaboratoryProfile, onHeader: ReadOptions['onHeader']) {
  const header = findHeader(lines.slice(0, HEADER_LINES), profile);
  onHeader?.(header);
  const rest = lines.filter(({ number }) => number > header.line);
  return createRowReader(header, rest, profile);
}

function createRowReader(header: Header, first: readonly Line[], profile: LaboratoryProfile) {
  const assembler = createAssembler(header.delimiter, header.headings.length);
  const toRow = createRowMaker(header, profile);

  const rowsOf = (records: readonly RecordText[]): SheetRow[] => {
    const fields = fieldsOf(records, header.delimiter);
    return records.map((record, i) => toRow(record, fields[i]!));
  };
  const push = (lines: readonly Line[]): SheetRow[] => {
    const records: RecordText[] = [];
    for (const line of lines) for (const record of assembler.push(line)) records.push(record);
    return rowsOf(records);
  };
  return {
    begin: () => push(first),
    push,
    end() {
      const rows = rowsOf(assembler.end());
      if (toRow.count() > 0) return rows;
      const what = 'There are headings but no rows.';
      throw new SheetError('NO_RECORDS', what, 'Add the records below them.', header.line);
    },
  };
}

/** Fields of each record; [] for a broken one. */
function fieldsOf(records: readonly RecordText[], delimiter: string): string[][] {
  const quoted = parseFields(records.filter(isQuoted), delimiter);
  let next = 0;
  return records.map((record) => {
    if (record.broken !== null) return [];
    return isQuoted(record) ? quoted[next++]! : splitPlain(record.text, delimiter);
  });
}

/** Whether a record must be parsed. A byte order mark within a record is no blank to the parser, but to `trimStart`. */
function isQuoted({ broken, text }: RecordText): boolean {
  return broken === null && (text.includes('"') || text.includes('\ufeff'));
}

/** What the parser makes of a record without quotes. */
function splitPlain(text: string, delimiter: string): string[] {
  const fields = text.split(delimiter);
  for (let i = 0; i < fields.length; i++) {
    const code = fields[i]!.charCodeAt(0);
    if (code <= BLANK || code >= NO_BREAK_SPACE) fields[i] = fields[i]!.trimStart();
  }
  return fields;
}

const BLANK = 0x20;
const NO_BREAK_SPACE = 0xa0;

function parseFields(whole: readonly RecordText[], delimiter: string): string[][] {
  const options = {
    delimiter,
    relax_quotes: true,
    ltrim: true,
    relax_column_count: true,
    record_delimiter: '\n',
  };
  const parsed: string[][] =
    whole.length === 0 ? [] : parse(whole.map(({ text }) => text).join('\n'), options);
  if (parsed.length !== whole.length) {
    throw new Error(`Of ${whole.length} records the CSV parser made ${parsed.length}.`);
  }
  return parsed;
}
