import type { TransactionSql } from 'postgres';
import { jsonText } from '../bulk';
import type { DerivedTest } from './derive-test';

/**
 * Keeps the questions about tests whose runs contradict each other in step with the tests: asks at the last record of
 * each, once, and closes what is asked no longer.
 */
export async function askAboutRuns(sql: TransactionSql, tests: readonly DerivedTest[]): Promise<void> {
  const asked = tests.flatMap(({ question, trays }) => {
    if (question === null) return [];
    const { sheetId, record } = trays.at(-1)!;
    return [{ sheet_id: sheetId, record, reason: question }];
  });
  const settled = tests.flatMap(({ question, trays }) =>
    (question === null ? trays : trays.slice(0, -1)).map(({ sheetId, record }) => [sheetId, record] as const),
  );
  await sql`
    update intake.question q set closed_at = now()
    from unnest(${settled.map(([sheet]) => sheet)}::int[], ${settled.map(([, record]) => record)}::int[]) as s (sheet_id, record)
    where q.sheet_id = s.sheet_id and q.record = s.record and q.closed_at is null and q.reason->>'code' = ${RUNS_DIFFER}`;
  if (asked.length === 0) return;
  await sql`
    insert into intake.question (sheet_id, record, reason)
    select a.sheet_id, a.record, a.reason from json_to_recordset(${jsonText(asked)}::text::json)
      as a (sheet_id int, record int, reason jsonb)
    where not exists (select from intake.question q where q.sheet_id = a.sheet_id and q.record = a.record
      and q.closed_at is null and q.reason->>'code' = ${RUNS_DIFFER})`;
}

/** Code of the question. */
export const RUNS_DIFFER = 'RUNS_DIFFER';
