import { parseArgs } from 'node:util';
import { COLUMNS, type Column, columnOf } from '@/lib/intake/columns';

export { today } from '@/lib/jobs/today';

import { HelpWanted, UsageError } from './command';

export type Options = Record<string, { type: 'string' | 'boolean'; multiple?: boolean }>;
type Value<O extends Options[string]> = O['type'] extends 'boolean'
  ? boolean
  : O['multiple'] extends true
    ? string[]
    : string;

export interface Read<T extends Options> {
  values: { [K in keyof T]?: Value<T[K]> };
  words: string[];
}

/**
 * Reads a command's options; a word that it does not take is a `UsageError` that shows `usage`; `--help` shows it as well.
 */
export function readOptions<T extends Options>(usage: string, options: T): Read<T> {
  if (process.argv.slice(2).some((word) => word === '--help' || word === '-h')) throw new HelpWanted(usage);
  try {
    const { values, positionals } = parseArgs({ options, allowPositionals: true, strict: true });
    return { values: values as never, words: positionals };
  } catch (error) {
    throw new UsageError(`${(error as Error).message}\nUsage: ${usage}`);
  }
}

/** An ISO day given as an option, or `otherwise`. */
export function readDay(text: string | undefined, name: string, otherwise: () => string): string {
  if (text === undefined) return otherwise();
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text));
  if (!isDay || new Date(text).toISOString().slice(0, 10) !== text) {
    throw new UsageError(`--${name} ${text} is no day: write it as 2026-02-10.`);
  }
  return text;
}

/** A whole number given as a word; anything else is a `UsageError` that shows `usage`. */
export function readNumber(text: string | undefined, what: string, usage: string): number {
  if (text !== undefined && /^\d{1,9}$/.test(text)) return Number(text);
  throw new UsageError(`${what} is a whole number, not “${text ?? ''}”.\nUsage: ${usage}`);
}

/** `COLUMN=TEXT` words by column; the column goes by its name here or by a usual heading. */
export function readCells(words: readonly string[], usage: string): Partial<Record<Column, string>> {
  return Object.fromEntries(
    words.map((word) => {
      const [, name, text] = /^([^=]+)=(.*)$/s.exec(word) ?? [];
      if (name === undefined) throw new UsageError(`“${word}” is not COLUMN=TEXT.\nUsage: ${usage}`);
      return [readColumn(name, usage), text!.trim()];
    }),
  );
}

/** A column by its name here or by a usual heading. */
export function readColumn(name: string, usage: string): Column {
  const column = COLUMNS.find((one) => one === name.trim()) ?? columnOf(name);
  if (column) return column;
  throw new UsageError(`“${name}” is no column. Columns: ${COLUMNS.join(', ')}.\nUsage: ${usage}`);
}
