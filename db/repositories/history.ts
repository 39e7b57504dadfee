import { and, asc, desc, eq, type SQL } from 'drizzle-orm';
import type { TransactionSql } from 'postgres';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { type HistoryKind, history } from '../schema/intake';

/** Something that was done. */
export interface Done {
  by: string;
  what: HistoryKind;
  sheetId?: number;
  record?: number;
  why?: string;
  before?: unknown;
  after?: unknown;
}

/** What was done, when. */
export type HistoryLine = typeof history.$inferSelect;

/** Writes down what was done; it stays for ever. */
export async function addHistory(sql: TransactionSql, done: Done): Promise<void> {
  const json = (value: unknown) => (value === undefined ? null : jsonText(value));
  await sql`
    insert into intake.history (done_by, what, sheet_id, record, why, before, after)
    values (${done.by}, ${done.what}, ${done.sheetId ?? null}, ${done.record ?? null}, ${done.why ?? ''},
      ${json(done.before)}::text::jsonb, ${json(done.after)}::text::jsonb)`;
}

/**
 * The history of a sheet or of one of its records, oldest first: all of it, or its `latest` lines. Of everything: newest
 * first, and at most `limit` lines.
 */
export async function readHistory(
  db: StaffDatabase,
  {
    sheetId,
    record,
    limit = 100,
    latest,
  }: { sheetId?: number; record?: number; limit?: number; latest?: number } = {},
): Promise<HistoryLine[]> {
  const wanted: (SQL | undefined)[] = [
    sheetId === undefined ? undefined : eq(history.sheetId, sheetId),
    record === undefined ? undefined : eq(history.record, record),
  ];
  const rows = db
    .select()
    .from(history)
    .where(and(...wanted));
  if (sheetId === undefined) return rows.orderBy(desc(history.id)).limit(limit);
  if (latest === undefined) return rows.orderBy(asc(history.id));
  return (await rows.orderBy(desc(history.id)).limit(latest)).reverse();
}
