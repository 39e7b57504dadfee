import type { TransactionSql } from 'postgres';
import type { Column } from '@/lib/intake/columns';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import type { Answer } from '../schema/intake';
import { cellAsSent } from './as-sent';
import { lockImports } from './lock';
import { type JudgeStored, judgeStoredRows, type Place } from './rejudge';

/** A text in a column, as a laboratory sends it. */
export interface Wording {
  column: Column;
  text: string;
}

/** Rows that are judged in one transaction: other changes wait no longer than that. */
const STEP = 100;

/**
 * Keeps the explanation of one cell for its laboratory, and judges the rows that wait with the same wording again, a
 * hundred at a time: between them others may change what is stored, and where it is broken off the next run goes on with
 * those that still wait.
 *
 * @param onRows told how many rows were judged so far
 * @returns how many were
 * @throws UserError where there is no such record, or its cell is blank
 */
export async function rememberReading(
  db: StaffDatabase,
  explained: Place & { column: Column; readAs: string },
  judging: { judge: JudgeStored; definition: CaseDefinition },
  onRows: (rows: number) => void,
): Promise<number> {
  const { sheetId, record, column, readAs } = explained;
  const answer: Answer = { kind: 'reads', cells: { [column]: readAs } };
  const { laboratory, wording } = await db.$client.begin(async (sql) => {
    await lockImports(sql);
    const [sheet] = await sql<{ laboratory: string }[]>`
      select laboratory from intake.sheet where id = ${sheetId}`;
    if (!sheet) throw new UserError(`There is no import ${sheetId}.`, 'Look it up in the list of imports.');
    const { laboratory } = sheet;
    return { laboratory, wording: await rememberWording(sql, laboratory, { sheetId, record, answer }) };
  });
  let rows = 0;
  for (let last: Place | null = null; ; ) {
    const places: Place[] = await db.$client.begin(async (sql) => {
      await lockImports(sql);
      const next = await waitingWith(sql, laboratory, wording, { after: last, limit: STEP });
      await judgeStoredRows(sql, next, judging);
      return [...next];
    });
    rows += places.length;
    onRows(rows);
    if (places.length < STEP) return rows;
    last = places.at(-1)!;
  }
}

/** Keeps the one cell that was explained as a reading of the laboratory. */
export async function rememberWording(
  sql: TransactionSql,
  laboratory: string,
  { sheetId, record, answer }: Place & { answer: Answer },
): Promise<Wording> {
  const cells = answer.kind === 'reads' ? Object.entries(answer.cells) : [];
  const [column, readAs] = (cells[0] ?? []) as [Column?, string?];
  if (cells.length !== 1 || column === undefined) {
    throw new UserError('Only the explanation of one cell can be remembered.', 'Leave --remember out.');
  }
  const [row] = await sql<{ text: string | null }[]>`
    select ${cellAsSent(sql, column)} as text from intake.record r join intake.sheet s on s.id = r.sheet_id
    where r.sheet_id = ${sheetId} and r.record = ${record}`;
  const text = row?.text?.trim() ?? '';
  if (text === '') throw new UserError('A blank cell cannot be remembered.', 'Leave --remember out.');
  await sql`
    insert into intake.reading (laboratory, column_name, text, read_as) values (${laboratory}, ${column}, ${text}, ${readAs!})
    on conflict (laboratory, column_name, text) do update set read_as = excluded.read_as`;
  return { column, text };
}

/** Records of the laboratory with an open question about the wording, in their order. */
export async function waitingWith(
  sql: TransactionSql,
  laboratory: string,
  { column, text }: Wording,
  {
    except = null,
    after = null,
    limit = null,
  }: {
    except?: Place | null;
    /** Those behind this one alone. */
    after?: Place | null;
    limit?: number | null;
  },
): Promise<Place[]> {
  return sql<Place[]>`
    select distinct q.sheet_id as "sheetId", q.record
    from intake.question q join intake.record r using (sheet_id, record) join intake.sheet s on s.id = q.sheet_id
    where q.closed_at is null and r.standing and s.laboratory = ${laboratory} and q.reason->>'key' = ${column}
      and trim(${cellAsSent(sql, column)}) = ${text}
      and (q.sheet_id, q.record) is distinct from (${except?.sheetId ?? null}::bigint, ${except?.record ?? null}::bigint)
      and (q.sheet_id, q.record) > (${after?.sheetId ?? 0}::bigint, ${after?.record ?? 0}::bigint)
    order by 1, 2 limit ${limit}`;
}
