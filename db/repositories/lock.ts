import type { TransactionSql } from 'postgres';

/** One change of what is stored at a time: what is judged against the store must not change meanwhile. */
export async function lockImports(sql: TransactionSql): Promise<void> {
  await sql`select pg_advisory_xact_lock(hashtext('fencerow.import'))`;
}
