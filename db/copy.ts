import { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import type { TransactionSql } from 'postgres';

export type CopyValue = string | number | boolean | null | readonly string[];

/**
 * Writes rows with COPY, the fast way in: about ten times as fast as INSERT. Values go in the order of `columns`;
 * an array becomes a `text[]`. Text that PostgreSQL cannot hold (NUL, half a surrogate pair) becomes U+FFFD.
 * `table` and `columns` are names of our own, never input.
 */
export async function copyRows(
  sql: TransactionSql,
  table: string,
  columns: readonly string[],
  rows: Iterable<readonly CopyValue[]>,
): Promise<void> {
  const into = await sql.unsafe(`copy ${table} (${columns.join(', ')}) from stdin`).writable();
  await pipeline(Readable.from(chunks(rows)), into);
}

/** JSON text that `jsonb` accepts: what it cannot hold becomes U+FFFD. */
export function jsonText(value: unknown): string {
  const text = JSON.stringify(value);
  if (!text.includes('\\u')) return text;
  return text.replace(/\\(?:u([0-9a-f]{4})|.)/g, (sequence, code?: string) =>
    code !== undefined && (code === '0000' || /^d[89a-f]/.test(code)) ? '\ufffd' : sequence,
  );
}

const CHUNK = 1 << 16;

function* chunks(rows: Iterable<readonly CopyValue[]>): Generator<string> {
  let chunk = '';
  for (const row of rows) {
    chunk += `${row.map(field).join('\t')}\n`;
    if (chunk.length >= CHUNK) {
      yield chunk;
      chunk = '';
    }
  }
  if (chunk !== '') yield chunk;
}

function field(value: CopyValue): string {
  if (value === null) return '\\N';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'boolean') return value ? 't' : 'f';
  if (typeof value === 'string') return escaped(value);
  return escaped(`{${value.map(quoted).join(',')}}`);
}

function quoted(element: string): string {
  return `"${element.replace(/["\\]/g, '\\$&')}"`;
}

const SPECIAL = /[\\\t\n\r\0]/g;
const ESCAPES: Record<string, string> = {
  '\\': '\\\\',
  '\t': '\\t',
  '\n': '\\n',
  '\r': '\\r',
  '\0': '\ufffd',
};

function escaped(text: string): string {
  return text.replace(SPECIAL, (character) => ESCAPES[character] ?? character);
}
