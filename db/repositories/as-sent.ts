import type { TransactionSql } from 'postgres';
import type { Column } from '@/lib/intake/columns';
import type { StoredRaw } from '../schema/intake';

/** A row as it was sent, by the headings of its sheet; of a line that is no row, what was kept of it. */
export function asSent(raw: StoredRaw, headings: readonly string[]): Record<string, string> {
  if (!Array.isArray(raw)) return raw;
  return Object.fromEntries(headings.map((heading, i) => [heading, raw[i] ?? '']));
}

/** The text of one column of a record `r` of a sheet `s`, as it was sent; null where the sheet has no such column. */
export function cellAsSent(sql: TransactionSql, column: Column) {
  return sql`case json_typeof(r.raw) when 'array'
    then r.raw->>(array_position(s.headings, s.columns->>${column}) - 1) else r.raw->>(s.columns->>${column}) end`;
}
