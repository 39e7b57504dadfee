import type { Outcome } from '@/lib/vocabulary/terms';
import type { Column } from './columns';

/** Why a row is not accepted, in words for an office: what is wrong, and what would settle it. */
export interface Problem {
  outcome: Exclude<Outcome, 'accepted'>;
  code: string;
  column: Column;
  reason: string;
  remedy: string;
  /** Cell texts that would answer it. */
  candidates: readonly string[];
  /** Whether an answer explains a wording, which means the same in the laboratory's next sheet. */
  memorable: boolean;
  /** Whether a person may let the row stand in spite of it. */
  mayStand: boolean;
}

/** What else a question knows: see `Problem`. */
export type Hints = Partial<Pick<Problem, 'candidates' | 'memorable' | 'mayStand'>>;

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
export function asks<T>(
  column: Column,
  code: string,
  reason: string,
  remedy: string,
  hints: Hints = {},
): Reading<T> {
  return {
    value: null,
    flags: [],
    problems: [{ outcome: 'in question', code, column, reason, remedy, ...NO_HINTS, ...hints }],
  };
}

/** A row that cannot be used as it is. */
export function refuses<T>(column: Column, code: string, reason: string, remedy: string): Reading<T> {
  return {
    value: null,
    flags: [],
    problems: [{ outcome: 'refused', code, column, reason, remedy, ...NO_HINTS }],
  };
}

/** A value that is used, with a question whether it may be: a person can let the row stand. */
export function doubts<T>(
  value: T,
  column: Column,
  code: string,
  reason: string,
  remedy: string,
): Reading<T> {
  return { ...asks<T>(column, code, reason, remedy, { mayStand: true }), value };
}

const NO_HINTS = { candidates: [], memorable: false, mayStand: false };

/** A cell's text as it stands in a message. */
export function quoted(text: string): string {
  return `“${text.length > 60 ? `${beginning(text, 60)}…` : text}”`;
}

/** The first characters of a text, never half of one (which no database takes). */
export function beginning(text: string, most: number): string {
  return text.slice(0, most).replace(/[\ud800-\udbff]$/, '');
}
