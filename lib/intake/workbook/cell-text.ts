import type { NumberKind } from './cell-styles';

/** What is needed to tell a cell's text. */
export interface CellContext {
  sharedStrings: readonly string[];
  styles: readonly NumberKind[];
  from1904: boolean;
}

/** A cell as it stands in the worksheet. */
export interface RawCell {
  /** Its type: n (number), s (shared text), str, inlineStr, b, e (error), d (ISO date). */
  type: string;
  /** Index of its style. */
  style: number;
  value: string;
}

/**
 * The text of a cell, as a person would type it: dates as ISO days, percentages with their sign, numbers with at most 15
 * digits (so that 0.1 + 0.2 is 0.3), TRUE and FALSE, errors as they are shown.
 */
export function cellText({ type, style, value }: RawCell, context: CellContext): string {
  if (value === '') return '';
  if (type === 's') return context.sharedStrings[Number(value)] ?? '';
  if (type === 'b') return value === '1' || value === 'true' ? 'TRUE' : 'FALSE';
  if (type === 'd') return value.replace(/T.*$/, '');
  if (type !== 'n' && type !== '') return value;
  const number = Number(value);
  if (!Number.isFinite(number)) return value;
  const kind = context.styles[style] ?? 'number';
  if (kind === 'date') return dateText(number, context.from1904) ?? shortest(number);
  return kind === 'percent' ? `${shortest(number * 100)}%` : shortest(number);
}

/** Days since 1899-12-30; before March 1900 a day less, since spreadsheets count a 29 February 1900 that never was. */
function dateText(serial: number, from1904: boolean): string | null {
  const days = Math.floor(serial) + (from1904 ? 1462 : 0);
  if (days < 1 || days === 60 || days > 2_958_465) return null;
  const since1899 = days < 60 ? days + 1 : days;
  return new Date(Date.UTC(1899, 11, 30) + since1899 * 86_400_000).toISOString().slice(0, 10);
}

function shortest(number: number): string {
  return Number.isInteger(number) ? String(number) : String(Number(number.toPrecision(15)));
}
