import { parseArgs } from 'node:util';
import { UsageError } from './command';

type Options = Record<string, { type: 'string' | 'boolean' }>;

/**
 * Reads a command's options; a word that it does not take is a `UsageError` that shows `usage`.
 */
export function readOptions<T extends Options>(
  usage: string,
  options: T,
): { values: { [K in keyof T]?: T[K]['type'] extends 'boolean' ? boolean : string }; words: string[] } {
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

/** Today as an ISO day, in UTC. */
export function today(): string {
  return new Date().toISOString().slice(0, 10);
}
