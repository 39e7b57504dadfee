import type { PendingQuery, Row, Sql } from 'postgres';
import type { StaffDatabase } from '../clients/staff';

/**
 * Reads much in one read-only transaction, whatever the planner takes it to be: row by row it takes seconds.
 *
 * @param workMem what each sort or hash may take, as the server writes it (`32MB`)
 */
export async function readWhole<T>(
  db: StaffDatabase,
  workMem: string,
  read: (sql: Sql) => Promise<T>,
): Promise<T> {
  const answer = await db.$client.begin('read only', async (transaction) => {
    const sql = transaction as unknown as Sql;
    await sql.unsafe(
      `set local work_mem = '${workMem}'; set local enable_nestloop = off; set local jit = off`,
    );
    return read(sql);
  });
  return answer as T;
}

/** A query's rows as one value. */
export function listOf(sql: Sql, rows: PendingQuery<Row[]>): PendingQuery<Row[]> {
  return sql`(select coalesce(json_agg(row), '[]') from (${rows}) row)`;
}
