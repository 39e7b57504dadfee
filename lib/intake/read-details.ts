import { species } from '@/lib/vocabulary/species';
import type { Eppo, Group } from '@/lib/vocabulary/terms';
import { isBlankCell } from './blank-cell';
import type { Column } from './columns';
import type { RowDetails } from './judged';
import { parseDate } from './parse-date';
import { asks, doubts, type Problem, quoted, type Reading, read } from './reading';
import { remembering } from './remembering';
import type { Cells } from './row-cells';
import scoring from './scoring-days.json';

/** What is known of the row when its other columns are read. */
export interface DetailContext {
  species: Eppo | null;
  group: Group | null;
  /** Plants that survived; null where no count was read. */
  alive: number | null;
  /** ISO day that counts as today. */
  asOf: string;
}

/**
 * What a row carries besides its counts, with the acceptance checks (common practice, no source): seed of at least five
 * female plants of a species with separate sexes; survivors of plants taller than 10 cm at spraying, or scored too early
 * for the group, may be false ones and are asked about; dates in the order sown, sprayed, scored, reported.
 */
export function readDetails(cells: Cells, context: DetailContext): Reading<RowDetails> {
  if (DETAIL_COLUMNS.every((column) => cells[column] === '')) return readDaysAlone(cells.dat, context);
  const details: RowDetails = {};
  const problems: Problem[] = [];
  const keep = <K extends keyof RowDetails>(
    key: K,
    { value, problems: against }: Reading<NonNullable<RowDetails[K]>>,
  ) => {
    if (value !== null) details[key] = value;
    problems.push(...against);
  };
  if (!isBlankCell(cells.plants)) keep('plants', wholeNumber('plants', cells.plants));
  if (!isBlankCell(cells.females)) keep('females', readFemales(cells.females, context));
  if (!isBlankCell(cells.sex)) details.sex = cells.sex;
  if (!isBlankCell(cells.height)) keep('heightCm', readHeight(cells.height, context));
  if (!isBlankCell(cells.zip)) details.zip = cells.zip;
  for (const column of DATES)
    if (!isBlankCell(cells[column])) keep(column, readDay(column, cells[column], context.asOf));
  problems.push(...orderProblems(details));
  const days = readDays(cells.dat, details);
  if (days.value !== null) details.daysAfterTreatment = days.value;
  problems.push(...days.problems, ...tooEarly(days.value, context));
  if (!isBlankCell(cells.emerged) && !isBlankCell(cells.emergedUntreated)) {
    const [treated, untreated] = [
      wholeNumber('emerged', cells.emerged),
      wholeNumber('emergedUntreated', cells.emergedUntreated),
    ];
    if (treated.value !== null && untreated.value !== null) {
      details.emerged = { treated: treated.value, untreated: untreated.value };
    }
    problems.push(...treated.problems, ...untreated.problems);
  }
  return { value: details, flags: [], problems };
}

const DATES = ['sown', 'sprayed', 'scored', 'reported'] as const;
/** All columns of details but the days. */
const DETAIL_COLUMNS: readonly Column[] = [
  ...DATES,
  ...(['plants', 'females', 'sex', 'height', 'zip', 'emerged', 'emergedUntreated'] as const),
];
const NOTHING: Reading<RowDetails> = { value: Object.freeze({}), flags: [], problems: [] };

/** The details of a row that has no others than the days from spraying to scoring. */
function readDaysAlone(text: string, context: DetailContext): Reading<RowDetails> {
  if (text === '') return NOTHING;
  const details = daysAlone(text);
  const early = tooEarly(details.value?.daysAfterTreatment ?? null, context);
  return early.length === 0 ? details : { ...details, problems: [...details.problems, ...early] };
}

const daysAlone = remembering((text): Reading<RowDetails> => {
  const { value, problems } = readDays(text, {});
  return { value: Object.freeze(value === null ? {} : { daysAfterTreatment: value }), flags: [], problems };
});

const FEWEST_FEMALES = 5;
const TALLEST_CM = 10;

function readFemales(text: string, { species: eppo }: DetailContext): Reading<number> {
  const females = wholeNumber('females', text);
  const plant = eppo === null ? null : species(eppo);
  if (!plant?.dioecious || females.value === null || females.value >= FEWEST_FEMALES) return females;
  const reason = `Seed of ${females.value} female plants of ${plant.commonName}; ${FEWEST_FEMALES} are needed to stand for a field.`;
  return doubts(
    females.value,
    'females',
    'FEW_FEMALES',
    reason,
    'Keep it as preliminary, or ask for more seed?',
  );
}

function readHeight(text: string, { alive }: DetailContext): Reading<number> {
  const [, number, unit = 'cm'] =
    /^(?:about |ca\.? ?|~)?(\d+(?:[.,]\d+)?)\s*("|''|[a-z]+)?\.?$/i.exec(text.trim()) ?? [];
  const factor = CM[unit.toLowerCase()];
  if (number === undefined || factor === undefined) {
    const reason = `Plant height ${quoted(text)} cannot be read.`;
    return asks(
      'height',
      'HEIGHT_UNREADABLE',
      reason,
      'How tall were the plants when they were sprayed, in cm?',
    );
  }
  const height = Number((Number(number.replace(',', '.')) * factor).toFixed(1));
  // 4 inches are 10.2 cm: the same line in the other unit.
  if (height <= TALLEST_CM + 0.2 || alive === 0) return read(height);
  const reason = `The plants were ${height} cm tall when they were sprayed; above ${TALLEST_CM} cm (4 in) survivors may be false ones.`;
  return doubts(height, 'height', 'PLANTS_TALL', reason, 'Does the result stand, or is it tested again?');
}

const CM: Readonly<Record<string, number>> = {
  ...{ cm: 1, centimeter: 1, centimeters: 1, centimetres: 1, mm: 0.1, m: 100 },
  ...{ in: 2.54, inch: 2.54, inches: 2.54, '"': 2.54, "''": 2.54 },
};

function readDay(column: (typeof DATES)[number], text: string, asOf: string): Reading<string> {
  const date = parseDate(text);
  if (typeof date === 'string') {
    return asks(column, 'DATE_UNREADABLE', `${quoted(text)} is no date.`, 'Give it as year-month-day.');
  }
  if (date.text > asOf && date.precision === 'day') {
    const reason = `The date ${date.text} lies after ${asOf}, the day of the import.`;
    return asks(column, 'DATE_FUTURE', reason, 'Which year is meant?');
  }
  return date.precision === 'day'
    ? read(date.text)
    : asks(column, 'DATE_UNREADABLE', `${quoted(text)} names no day.`, 'Which day was it?');
}

function orderProblems(details: RowDetails): Problem[] {
  const given = DATES.filter((column) => details[column] !== undefined);
  const wrong = given.find((column, i) => i > 0 && details[column]! < details[given[i - 1]!]!);
  if (wrong === undefined) return [];
  const before = given[given.indexOf(wrong) - 1]!;
  const reason = `The row was ${wrong} ${details[wrong]}, before it was ${before} ${details[before]}.`;
  return asks(wrong, 'DATE_ORDER', reason, 'Which of the two dates is wrong?').problems;
}

/** Days from spraying to scoring: as said, or from the two dates, which must agree within a day. */
function readDays(text: string, { sprayed, scored }: RowDetails): Reading<number> {
  const between =
    sprayed && scored ? Math.round((Date.parse(scored) - Date.parse(sprayed)) / 86_400_000) : null;
  if (isBlankCell(text)) return between === null || between < 0 ? NO_DAYS : read(between);
  const said = /^(\d{1,3})\s*(?:d|days?|dat|daa)?\.?$/i.exec(text.trim());
  const weeks = /^(\d{1,2})\s*(?:w|wk|wks|weeks?|wat)\.?$/i.exec(text.trim());
  if (!said && !weeks) {
    return asks(
      'dat',
      'DAYS_UNREADABLE',
      `Days after treatment ${quoted(text)} cannot be read.`,
      'How many days after spraying were the plants scored?',
    );
  }
  const days = said ? Number(said[1]) : 7 * Number(weeks![1]);
  if (between === null || Math.abs(days - between) <= (weeks ? 4 : 1)) return read(days);
  const reason = `The row says ${days} days after treatment, but its dates of spraying and scoring are ${between} days apart.`;
  return asks('dat', 'DAYS_CONFLICT', reason, 'Which of them is right?');
}

const NO_DAYS: Reading<number> = { value: null, flags: [], problems: [] };

function tooEarly(days: number | null, { group, alive }: DetailContext): Problem[] {
  if (days === null || group === null || !alive) return [];
  const needed = (scoring.days as Record<string, number>)[group] ?? scoring.otherwise;
  if (days >= needed) return [];
  const reason = `Survivors were counted ${days} days after treatment; with group ${group} they may still die until day ${needed}.`;
  return doubts(days, 'dat', 'SCORED_EARLY', reason, 'Does the result stand, or was it scored again later?')
    .problems;
}

function wholeNumber(column: Column, text: string): Reading<number> {
  if (/^\d{1,6}$/.test(text.trim())) return read(Number(text));
  return asks(column, 'COUNTS_NOT_NUMERIC', `${quoted(text)} is not a whole number.`, 'What was the count?');
}
