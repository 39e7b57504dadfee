import type { Sql } from 'postgres';
import type { Column } from '@/lib/intake/columns';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { StaffDatabase } from '../clients/staff';
import type { Answer, StoredRaw } from '../schema/intake';
import { asSent } from './as-sent';

/** Which questions are looked at, one after the other. */
export interface QuestionScope {
  sheetId?: number | undefined;
  laboratory?: string | undefined;
  /** Code of the reason. */
  code?: string | undefined;
}

/** A question with its row as it was sent, open or closed. Private: rows may name people. */
export interface AskedQuestion {
  id: number;
  sheetId: number;
  record: number;
  line: number;
  fileName: string;
  laboratory: string;
  reason: Reason;
  raw: Record<string, string>;
  /** The sheet's own heading of each column. */
  columns: Partial<Record<Column, string>>;
  /** False once its import was undone. */
  standing: boolean;
  /** ISO instant; null while it waits. */
  closedAt: string | null;
  /** Null where another answer settled it. */
  answeredBy: string | null;
  answer: Answer | null;
  /** What the row is now. */
  outcome: Judged['outcome'];
  result: Judged['result'];
}

/** One question, or null. */
export async function readQuestion(db: StaffDatabase, id: number): Promise<AskedQuestion | null> {
  const [row] = await db.$client<(Omit<AskedQuestion, 'raw'> & { raw: StoredRaw; headings: string[] })[]>`
    select q.id::float8 as id, q.sheet_id as "sheetId", q.record, r.line, s.file_name as "fileName", s.laboratory, q.reason,
      r.raw, s.headings, s.columns, r.standing, q.answered_by as "answeredBy", q.answer, r.outcome, r.result,
      to_char(q.closed_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "closedAt"
    from intake.question q join intake.record r using (sheet_id, record) join intake.sheet s on s.id = q.sheet_id
    where q.id = ${id}`;
  if (!row) return null;
  const { raw, headings, ...rest } = row;
  return { ...rest, raw: asSent(raw, headings) };
}

/** The next open question after one, in the order in which they were asked; from the start again where none follows. */
export async function nextQuestion(
  db: StaffDatabase,
  scope: QuestionScope,
  after: number,
): Promise<number | null> {
  const sql = db.$client;
  const find = (condition: ReturnType<typeof inScope>) => sql<{ id: number }[]>`
    select q.id::float8 as id from intake.question q join intake.sheet s on s.id = q.sheet_id
    where q.closed_at is null and ${condition} and ${inScope(sql, scope)} order by q.id limit 1`;
  const [next] = await find(sql`q.id > ${after}`);
  if (next) return next.id;
  const [first] = await find(sql`q.id < ${after}`);
  return first?.id ?? null;
}

/** How many questions wait in a scope, by their code, with one of them as an example. */
export async function waitingByCode(
  db: StaffDatabase,
  scope: QuestionScope,
): Promise<{ code: string; count: number; reason: Reason }[]> {
  const sql = db.$client;
  return sql<{ code: string; count: number; reason: Reason }[]>`
    with counted as (
      select q.reason->>'code' as code, count(*)::int as count, min(q.id) as first
      from intake.question q join intake.sheet s on s.id = q.sheet_id
      where q.closed_at is null and ${inScope(sql, scope)} group by 1
    )
    select code, count, q.reason from counted join intake.question q on q.id = first order by count desc, code`;
}

/** A text that a laboratory's rows have in common and that is asked about. */
export interface Wording {
  laboratory: string;
  code: string;
  column: string;
  text: string;
  count: number;
  /** The first of the questions about it. */
  first: number;
}

/** Texts that one answer explains in several rows, the most frequent first. */
export async function commonWordings(
  db: StaffDatabase,
  scope: QuestionScope,
  limit: number,
): Promise<Wording[]> {
  const sql = db.$client;
  return sql<Wording[]>`
    select s.laboratory, q.reason->>'code' as code, q.reason->>'column' as "column", q.reason->>'value' as text,
      count(*)::int as count, min(q.id)::float8 as first
    from intake.question q join intake.sheet s on s.id = q.sheet_id
    where q.closed_at is null and (q.reason->>'memorable')::boolean and q.reason->>'value' <> '' and ${inScope(sql, scope)}
    group by 1, 2, 3, 4, q.reason->>'key' having count(*) > 1
    order by count desc, first limit ${limit}`;
}

/** Open questions of the same laboratory about the same text, the question itself included. */
export async function countAlike(db: StaffDatabase, { laboratory, reason }: AskedQuestion): Promise<number> {
  if (!reason.memorable || reason.value === '') return 1;
  const [row] = await db.$client<{ count: number }[]>`
    select count(*)::int as count from intake.question q join intake.sheet s on s.id = q.sheet_id
    where q.closed_at is null and s.laboratory = ${laboratory} and q.reason->>'code' = ${reason.code}
      and q.reason->>'key' is not distinct from ${reason.key} and q.reason->>'value' = ${reason.value}`;
  return row!.count;
}

/** The questions of an import that was undone are closed with it, so that open ones are of sheets that stand. */
function inScope(sql: Sql, { sheetId, laboratory, code }: QuestionScope) {
  return sql`(${sheetId ?? null}::int is null or q.sheet_id = ${sheetId ?? null})
    and (${laboratory ?? null}::text is null or s.laboratory = ${laboratory ?? null})
    and (${code ?? null}::text is null or q.reason->>'code' = ${code ?? null})`;
}
