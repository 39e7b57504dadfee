import type { Outcome } from '@/lib/vocabulary/terms';
import type { Column } from './columns';

/** Why a row is not accepted, in words for an office: what is wrong, and what would settle it. */
export interface Problem {
  outcome: Exclude<Outcome, 'accepted'>;
  code: string;
  column: Column;
  reason: string;
  remedy: string;
}

/** What was made of one or a few cells: a value (null where a problem leaves none), notes, problems. */
export interface Reading<T> {
  value: T | null;
  flags: string[];
  problems: Problem[];
}

export function read<T>(value: T, ...flags: string[]): Reading<T> {
  return { value, flags, problems: [] };
}

/** A question that a person must answer before the row counts. */
export function asks<T>(column: Column, code: string, reason: string, remedy: string): Reading<T> {
  return { value: null, flags: [], problems: [{ outcome: 'in question', code, column, reason, remedy }] };
}

/** A row that cannot be used as it is. */
export function refuses<T>(column: Column, code: string, reason: string, remedy: string): Reading<T> {
  return { value: null, flags: [], problems: [{ outcome: 'refused', code, column, reason, remedy }] };
}

/** A cell's text as it stands in a message. */
export function quoted(text: string): string {
  return `“${text.length > 60 ? `${beginning(text, 60)}…` : text}”`;
}

/** The first characters of a text, never half of one (which no database takes). */
export function beginning(text: string, most: number): string {
  return text.slice(0, most).replace(/[\ud800-\udbff]$/, '');
}
