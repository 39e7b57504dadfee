import type { Reason } from '@/lib/intake/judged';
import type { StaffDatabase } from '../clients/staff';
import type { StoredRaw } from '../schema/intake';
import { asSent } from './as-sent';

/** A question that waits for a person, with its row as it was sent. Private: rows may name people. */
export interface OpenQuestion {
  id: number;
  sheetId: number;
  fileName: string;
  laboratory: string;
  record: number;
  line: number;
  reason: Reason;
  raw: Record<string, string>;
  /** ISO instant. */
  askedAt: string;
  /** Open questions of the same laboratory about the same wording, itself included. */
  alike: number;
}

export interface QuestionFilter {
  sheetId?: number;
  laboratory?: string;
  /** Code of the reason. */
  code?: string;
  id?: number;
  /** At most so many; 50. */
  limit?: number;
}

/** Open questions, the oldest sheet first, in the order of its rows. */
export async function openQuestions(db: StaffDatabase, filter: QuestionFilter = {}): Promise<OpenQuestion[]> {
  const { sheetId = null, laboratory = null, code = null, id = null, limit = 50 } = filter;
  const rows = await db.$client<(Omit<OpenQuestion, 'raw'> & { raw: StoredRaw; headings: string[] })[]>`
    with open as (
      select q.*, s.laboratory, s.file_name, s.headings, r.line, r.raw,
        count(*) over (partition by s.laboratory, q.reason->>'code', q.reason->>'key', q.reason->>'value') as alike
      from intake.question q
      join intake.record r using (sheet_id, record) join intake.sheet s on s.id = q.sheet_id
      where q.closed_at is null and r.standing
    )
    select id::float8 as id, sheet_id as "sheetId", file_name as "fileName", laboratory, record, line, reason, raw, headings,
      to_char(asked_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "askedAt",
      case when reason->>'value' = '' then 1 else alike end::int as alike
    from open
    where (${id}::bigint is null or id = ${id}) and (${sheetId}::int is null or sheet_id = ${sheetId})
      and (${laboratory}::text is null or laboratory = ${laboratory}) and (${code}::text is null or reason->>'code' = ${code})
    order by sheet_id, record, id limit ${limit}`;
  return rows.map(({ headings, raw, ...question }) => ({ ...question, raw: asSent(raw, headings) }));
}

/** How many questions wait, by their code. */
export async function countQuestions(db: StaffDatabase): Promise<{ code: string; count: number }[]> {
  return db.$client<{ code: string; count: number }[]>`
    select q.reason->>'code' as code, count(*)::int as count
    from intake.question q join intake.record r using (sheet_id, record)
    where q.closed_at is null and r.standing
    group by 1 order by 2 desc, 1`;
}
