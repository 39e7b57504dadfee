import { parse } from 'csv-parse/sync';
import { UserError } from '@/db/errors';
import type { CropArea } from '@/db/repositories/crop-areas';
import { type CountyMatch, findCountyByName } from '@/lib/geography/names';
import { findState } from '@/lib/geography/states';
import type { County } from '@/lib/geography/types';
import { createAssembler, type RecordText } from '@/lib/intake/assemble-records';
import { headingKey } from '@/lib/intake/columns';
import { type ByteSource, decodeStream } from '@/lib/intake/decode-sheet';
import { createLineSplitter, type Line } from '@/lib/intake/split-lines';

export interface CropTableRead {
  /** Each crop × year × county once, in the order of the file. */
  areas: CropArea[];
  /** Rows of counties outside the region. */
  outside: number;
  /** Rows that hold no figure of one county: withheld by who published them, or totals of several counties. */
  untold: number;
}

/**
 * Reads a county table of crop areas: CSV in any usual encoding, delimited by comma, semicolon, tab or bar, with the columns
 * county FIPS (or county and state), crop, year, and hectares or acres, whose heading names the unit. In any order;
 * others are left aside.
 *
 * @param source bytes, or a stream of them
 * @param place all counties there are, and the postal abbreviations of the region's states
 * @policy A blank area, and what statistical offices write for figures that they withhold or do not have (`(D)`, `(NA)`),
 *   is not told, which is not zero. Codes of a state's total and of counties counted together (000, 888, 998, 999; common
 *   practice, no source) are no county.
 * @throws UserError naming row, column and remedy; SheetError where the source is no text
 */
export async function readCropTable(
  source: ByteSource,
  place: { counties: readonly County[]; states: readonly string[] },
): Promise<CropTableRead> {
  const { header, rows } = await fieldsOf(source);
  const problems: string[] = [];
  const areas = new Map<string, CropArea & { line: number }>();
  const read = { outside: 0, untold: 0 };
  for (const { line, fields } of rows) {
    const cell = (column: Column) => fields[header.places.get(column) ?? -1]?.trim() ?? '';
    const row = readRow(cell, header, place.counties);
    if (typeof row === 'string') {
      if (row === UNTOLD) read.untold += 1;
      else problems.push(`Line ${line}, ${row}`);
      continue;
    }
    if (!place.states.includes(row.state)) {
      read.outside += 1;
      continue;
    }
    const { state: _, ...area } = row;
    const key = JSON.stringify([area.crop, area.year, area.county]);
    const first = areas.get(key);
    if (first) {
      problems.push(
        `Line ${line}, county: ${area.crop} of ${area.year} in ${area.county} stands in line ${first.line} too. Keep one.`,
      );
    } else areas.set(key, { ...area, line });
  }
  refuse(problems);
  return { areas: [...areas.values()].map(({ line: _, ...area }) => area), ...read };
}

type Column = 'fips' | 'county' | 'state' | 'crop' | 'year' | 'area';

/** Usual headings (common practice, no source); those of areas name their unit. */
const WORDS: Readonly<Record<Exclude<Column, 'area'>, string>> = {
  fips: 'fips|county fips|fips code|county code|geoid|county fips code',
  county: 'county|county name',
  state: 'state|state name|state code|state abbreviation',
  crop: 'crop|commodity|crop name',
  year: 'year|crop year|season',
};
const UNITS = [
  { pattern: /\b(hectares?|ha)\b/i, hectares: 1 },
  // The international acre: 4,046.8564224 m², exactly.
  { pattern: /\b(acres?|ac)\b/i, hectares: 0.40468564224 },
] as const;
const HEADINGS = 'county FIPS (or county and state), crop, year, and hectares or acres';

interface CropHeader {
  headings: string[];
  delimiter: string;
  line: number;
  places: ReadonlyMap<Column, number>;
  /** Hectares of one unit of the area. */
  unit: number;
}

async function fieldsOf(source: ByteSource): Promise<{
  header: CropHeader;
  rows: { line: number; fields: string[] }[];
}> {
  const splitter = createLineSplitter();
  const lines: Line[] = [];
  for await (const text of decodeStream(source)) lines.push(...splitter.push(text));
  lines.push(...splitter.end());
  const header = findCropHeader(lines);
  const assembler = createAssembler(header.delimiter, header.headings.length);
  const records: RecordText[] = [];
  for (const line of lines) if (line.number > header.line) records.push(...assembler.push(line));
  records.push(...assembler.end());
  refuse(
    records.flatMap(({ line, broken }) =>
      broken === null
        ? []
        : [
            `Line ${line}: it cannot be taken apart into ${header.headings.length} cells. Check quotes and commas.`,
          ],
    ),
  );
  if (records.length === 0) {
    throw new UserError('There are headings but no rows.', 'Add the areas below them.');
  }
  const options = { delimiter: header.delimiter, relax_quotes: true, ltrim: true, record_delimiter: '\n' };
  const fields: string[][] = parse(records.map(({ text }) => text).join('\n'), options);
  return { header, rows: records.map(({ line }, i) => ({ line, fields: fields[i]! })) };
}

/** The first line of ten that names an area in a unit; titles may stand before it. */
function findCropHeader(lines: readonly Line[]): CropHeader {
  for (const { text, number } of lines.slice(0, 10)) {
    for (const delimiter of [',', ';', '\t', '|']) {
      const headings = headingsOf(text, delimiter);
      const areas = headings.filter((heading) => unitOf(heading) !== null);
      if (headings.length < 4 || areas.length === 0) continue;
      return checkedHeader({ headings, delimiter, line: number }, areas);
    }
  }
  throw new UserError('No headings of a table of crop areas were found.', `They are: ${HEADINGS}.`);
}

function headingsOf(text: string, delimiter: string): string[] {
  try {
    const [cells = []]: string[][] = parse(text, { delimiter, relax_quotes: true, ltrim: true });
    return cells.map((cell) => cell.trim());
  } catch {
    return [];
  }
}

function checkedHeader(
  found: Pick<CropHeader, 'headings' | 'delimiter' | 'line'>,
  areas: readonly string[],
): CropHeader {
  const { headings, line } = found;
  const places = new Map<Column, number>([['area', headings.indexOf(areas[0]!)]]);
  const twice = areas.length > 1 ? [...areas] : [];
  for (const [column, words] of Object.entries(WORDS) as [Column, string][]) {
    const keys = words.split('|').map(headingKey);
    const named = headings.filter((heading) => keys.includes(headingKey(heading)));
    if (named.length > 1) twice.push(...named);
    if (named.length > 0) places.set(column, headings.indexOf(named[0]!));
  }
  if (twice.length > 0) {
    const names = twice.map((heading) => `“${heading}”`).join(' and ');
    throw new UserError(`Line ${line}: the headings ${names} mean the same column.`, 'Take out all but one.');
  }
  const lacks = (['crop', 'year'] as const).filter((column) => !places.has(column)) as string[];
  if (!places.has('fips') && !places.has('county')) lacks.unshift('county FIPS, or county and state');
  if (lacks.length > 0) {
    throw new UserError(`Line ${line}: columns are missing: ${lacks.join('; ')}.`, `Needed: ${HEADINGS}.`);
  }
  return { ...found, places, unit: unitOf(areas[0]!)! };
}

function unitOf(heading: string): number | null {
  return UNITS.find(({ pattern }) => pattern.test(heading))?.hectares ?? null;
}

const UNTOLD = 'untold';

/** The row; or what is wrong with it, by column, with what to do; or that it tells nothing of one county. */
function readRow(
  cell: (column: Column) => string,
  { headings, places, unit }: CropHeader,
  counties: readonly County[],
): (CropArea & { state: string }) | string {
  if (isTotal(cell('fips'), cell('county'))) return UNTOLD;
  const county = readCounty(cell, counties);
  if (typeof county === 'string') return county;
  const crop = cell('crop').toLowerCase().replace(/\s+/g, ' ');
  if (crop === '' || crop.length > 60) {
    return `crop: “${shown(cell('crop'))}” is no name of a crop. Write one of 1 to 60 letters.`;
  }
  const year = Number(cell('year'));
  if (!(/^\d{4}$/.test(cell('year')) && year >= 1900 && year <= 2100)) {
    return `year: “${shown(cell('year'))}” is no year. Write it as 2024.`;
  }
  const text = cell('area');
  if (/^(\(?(d|na|n\/a|x|s|z)\)?|-+|\.+|)$/i.test(text)) return UNTOLD;
  const area = /^(\d{1,3}(,\d{3})+|\d+)(\.\d+)?$/.test(text)
    ? Number(text.replaceAll(',', '')) * unit
    : Number.NaN;
  if (!(area < 1e9)) {
    const heading = headings[places.get('area')!];
    return `${heading}: “${shown(text)}” is no area. Write a number of 0 or more, as 12500 or 12,500.5; leave it blank where it is not known.`;
  }
  return { crop, year, county: county.fips, state: county.state, hectares: area };
}

function isTotal(fips: string, county: string): boolean {
  return /^\d{1,2}(000|888|998|999)$/.test(fips) || /\bcombined\b|\btotal\b|\ball counties\b/i.test(county);
}

function readCounty(cell: (column: Column) => string, counties: readonly County[]): County | string {
  const stated = cell('state') === '' ? null : findState(cell('state'));
  if (cell('state') !== '' && stated === null) {
    return `state: “${shown(cell('state'))}” is no state. Write its name or postal abbreviation.`;
  }
  const state = stated?.code ?? null;
  const [byCode, byName] = [cell('fips'), cell('county')].map((text) =>
    text === '' ? null : findCountyByName(text, state, counties),
  );
  const column = byCode ? 'county FIPS' : 'county';
  const match = byCode ?? byName;
  if (!match) return 'county: it is blank. Write its five-digit FIPS code.';
  if (match.kind !== 'exact') return `${column}: ${whyNot(match, cell(byCode ? 'fips' : 'county'), state)}`;
  if (byCode && byName?.kind === 'exact' && byName.county.fips !== match.county.fips && state !== null) {
    return `county: ${match.county.fips} is ${named(match.county)}, not ${named(byName.county)}. Correct one of the two.`;
  }
  return match.county;
}

function whyNot(match: Exclude<CountyMatch, { kind: 'exact' }>, text: string, state: string | null): string {
  const others = match.kind === 'unknown' ? '' : match.counties.slice(0, 4).map(named).join(' or ');
  const where = state === null ? '' : ` in ${state}`;
  if (match.kind === 'ambiguous') return `“${shown(text)}” may be ${others}. Write the FIPS code.`;
  const near = others === '' ? 'Write the five-digit FIPS code.' : `Is it ${others}?`;
  return `there is no county “${shown(text)}”${where}. ${near}`;
}

function named({ fullName, state, fips }: County): string {
  return `${fullName}, ${state} (${fips})`;
}

function shown(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

const MOST_SHOWN = 8;

function refuse(problems: readonly string[]): void {
  if (problems.length === 0) return;
  const more = problems.length - MOST_SHOWN;
  const lines = [
    ...problems.slice(0, MOST_SHOWN),
    ...(more > 0 ? [`and ${more} more lines like these`] : []),
  ];
  throw new UserError(`${lines.join('\n')}\nNothing was stored.`, 'Correct the table and load it again.');
}
