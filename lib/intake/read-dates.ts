import { isBlankCell } from './blank-cell';
import type { Column } from './columns';
import { parseDate, type SheetDate } from './parse-date';
import { asks, quoted, type Reading, read } from './reading';

export interface Dates {
  collected: string;
  datePrecision: SheetDate['precision'];
  received: string | null;
}

/**
 * When the seed was collected and received. A year is enough; a date that cannot be, lies after `asOf`, or a
 * collection after receipt is a question, and so is a missing collection date.
 *
 * @param asOf the day that counts as today, ISO
 * @param parse `parseDate`, or one that remembers
 */
export function readDates(
  cells: { collected: string; received: string },
  asOf: string,
  parse: typeof parseDate = parseDate,
): Reading<Dates> {
  const received = isBlankCell(cells.received)
    ? null
    : dateOf('received', cells.received, parse(cells.received), asOf);
  if (isBlankCell(cells.collected)) {
    const hint = received?.value ? ` It was received on ${received.value.text}.` : '';
    return asks(
      'collected',
      'DATE_MISSING',
      `There is no collection date.${hint}`,
      'In which year was the seed collected?',
    );
  }
  const collected = dateOf('collected', cells.collected, parse(cells.collected), asOf);
  const problems = [...collected.problems, ...(received?.problems ?? [])];
  const date = collected.value;
  if (date && received?.value && isAfter(date.text, received.value.text)) {
    const reason = `Collected ${date.text}, but received ${received.value.text}.`;
    problems.push(...asks('collected', 'DATE_ORDER', reason, 'Which of the two dates is wrong?').problems);
  }
  const value =
    date && problems.length === 0
      ? { collected: date.text, datePrecision: date.precision, received: received?.value?.text ?? null }
      : null;
  return { value, flags: collected.flags, problems };
}

function dateOf(
  column: Column,
  text: string,
  date: ReturnType<typeof parseDate>,
  asOf: string,
): Reading<SheetDate> {
  if (date === 'unreadable') {
    return asks(column, 'DATE_UNREADABLE', `${quoted(text)} is no date.`, 'Give it as year-month-day.');
  }
  if (date === 'impossible') {
    return asks(
      column,
      'DATE_IMPOSSIBLE',
      `No calendar has the date ${quoted(text)}.`,
      'Which date is meant?',
    );
  }
  if (isAfter(date.text, asOf)) {
    const reason = `The date ${date.text} lies after ${asOf}, the day of the import.`;
    return asks(column, 'DATE_FUTURE', reason, 'Which year is meant?');
  }
  return read(date, ...date.flags);
}

/** Compares at the coarser precision of the two: `2026` is not after `2026-09-21`. */
function isAfter(a: string, b: string): boolean {
  const length = Math.min(a.length, b.length);
  return a.slice(0, length) > b.slice(0, length);
}
