/** A date as a sheet gives it: `2026-09-14`, `2026-09` or `2026`. */
export interface SheetDate {
  text: string;
  precision: 'day' | 'month' | 'year';
  flags: ('DATE_DAY_FIRST' | 'DATE_SPREADSHEET_SERIAL' | 'DATE_IMPRECISE')[];
}

/**
 * Reads a date in the forms of sheets: ISO; with slashes, dashes or dots, month first unless the first number exceeds
 * 12; with the month's name; a spreadsheet's day number; a month and year, a season and year, or a year. Two-digit
 * years are 20xx. A time of day is left out.
 *
 * @returns `impossible` for a day that no calendar has, `unreadable` for what is no date
 */
export function parseDate(text: string): SheetDate | 'impossible' | 'unreadable' {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/[t ]\d{1,2}:\d{2}(:\d{2}(\.\d+)?)?\s*(z|am|pm|[+-]\d{2}:?\d{2})?$/, '')
    .replace(/(\d)(st|nd|rd|th)\b/, '$1')
    .replace(/[,.']/g, (mark, at: number, all: string) =>
      /\d/.test(all[at + 1] ?? '') && mark === '.' ? '.' : ' ',
    )
    .replace(/\s+/g, ' ')
    .trim();
  return byNumbers(plain) ?? byMonthName(plain) ?? byYear(plain) ?? 'unreadable';
}

type Parsed = ReturnType<typeof parseDate> | null;

function byNumbers(text: string): Parsed {
  const iso =
    /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text) ?? /^((?:19|20)\d\d)(\d\d)(\d\d)$/.exec(text);
  if (iso) return day(Number(iso[1]), Number(iso[2]), Number(iso[3]));
  const month = /^(\d{4})-(\d{1,2})$/.exec(text);
  if (month) return monthOf(Number(month[1]), Number(month[2]));
  const parts = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/.exec(text);
  if (parts) {
    const [first, second, year] = [Number(parts[1]), Number(parts[3]), fullYear(parts[4]!)];
    return first > 12 ? day(year, second, first, 'DATE_DAY_FIRST') : day(year, first, second);
  }
  const serial = /^(\d{5})(\.\d+)?$/.exec(text);
  if (serial) return bySerial(Number(serial[1]));
  return null;
}

/** Days since 1899-12-30, as spreadsheets count (open format description of workbooks; from memory). */
function bySerial(serial: number): Parsed {
  const date = new Date(Date.UTC(1899, 11, 30) + serial * 86_400_000);
  return day(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate(), 'DATE_SPREADSHEET_SERIAL');
}

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const NAME = '((?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*)';
const DAY_MONTH = new RegExp(String.raw`^(\d{1,2})[- ]${NAME}[- ](\d{4}|\d{2})$`);
const MONTH_DAY = new RegExp(String.raw`^${NAME}[- ](\d{1,2})[- ](\d{4}|\d{2})$`);
const MONTH_YEAR = new RegExp(String.raw`^${NAME}[- ]?(\d{4}|\d{2})$`);

function byMonthName(text: string): Parsed {
  const before = DAY_MONTH.exec(text);
  if (before) return day(fullYear(before[3]!), monthNumber(before[2]!), Number(before[1]));
  const after = MONTH_DAY.exec(text);
  if (after) return day(fullYear(after[3]!), monthNumber(after[1]!), Number(after[2]));
  const month = MONTH_YEAR.exec(text);
  return month ? monthOf(fullYear(month[2]!), monthNumber(month[1]!)) : null;
}

function byYear(text: string): Parsed {
  const season = '(?:early |mid |late )?(?:spring|summer|fall|autumn|winter|harvest|season|crop year)';
  const year =
    new RegExp(String.raw`^${season}(?: of)? ?(\d{4}|\d{2})$`).exec(text) ??
    new RegExp(String.raw`^(\d{4}) ?(?:${season})?$`).exec(text);
  if (!year) return null;
  const number = fullYear(year[1]!);
  if (!plausible(number)) return 'impossible';
  return { text: String(number), precision: 'year', flags: ['DATE_IMPRECISE'] };
}

function day(year: number, month: number, date: number, ...flags: SheetDate['flags']): Parsed {
  const made = new Date(Date.UTC(year, month - 1, date));
  const stands =
    made.getUTCFullYear() === year && made.getUTCMonth() === month - 1 && made.getUTCDate() === date;
  if (!stands || !plausible(year)) return 'impossible';
  return { text: made.toISOString().slice(0, 10), precision: 'day', flags };
}

function monthOf(year: number, month: number): Parsed {
  if (month < 1 || month > 12 || !plausible(year)) return 'impossible';
  return { text: `${year}-${String(month).padStart(2, '0')}`, precision: 'month', flags: ['DATE_IMPRECISE'] };
}

/** Resistance testing has no sheets from before 1950. */
function plausible(year: number): boolean {
  return year >= 1950 && year < 2100;
}

function fullYear(text: string): number {
  return text.length === 2 ? 2000 + Number(text) : Number(text);
}

function monthNumber(name: string): number {
  return MONTHS.indexOf(name.slice(0, 3)) + 1;
}
