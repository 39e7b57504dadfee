import { drizzle } from 'drizzle-orm/postgres-js';
import type { Sql, TransactionSql } from 'postgres';
import type { StaffDatabase } from './staff';

/**
 * Runs `work` in one transaction of the staff's database. What it is given behaves as the database itself: a
 * repository that begins a transaction of its own gets a savepoint inside this one, so that everything it stores is
 * kept or taken back with the rest. Thrown errors take all back.
 */
export async function inTransaction<T>(
  db: StaffDatabase,
  work: (db: StaffDatabase) => Promise<T>,
): Promise<T> {
  const result = await db.$client.begin(async (sql) => ({ is: await work(within(db, sql)) }));
  return result.is;
}

function within(db: StaffDatabase, sql: TransactionSql): StaffDatabase {
  const client = Object.assign(sql, {
    options: db.$client.options,
    begin: (...args: [unknown, unknown?]) => sql.savepoint((args[1] ?? args[0]) as never),
  }) as unknown as Sql;
  const same = drizzle(client, { schema: db._.fullSchema });
  return Object.assign(same, { role: 'staff' as const });
}
