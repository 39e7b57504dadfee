import { drizzle, type PostgresJsDatabase } from 'drizzle-orm/postgres-js';
import postgres, { type Sql } from 'postgres';
import * as intake from './schema/intake';
import * as release from './schema/release';
import * as surveillance from './schema/surveillance';

const everything = { ...intake, ...surveillance, ...release };

/** The programme's staff: reads and writes `intake` and `surveillance`, adds releases. */
export type StaffDatabase = PostgresJsDatabase<typeof everything> & { $client: Sql; readonly role: 'staff' };

/** Anybody: reads `release`, and has no right on anything else. */
export type PublicDatabase = PostgresJsDatabase<typeof release> & { $client: Sql; readonly role: 'public' };

/** A pool of connections as the staff role; end it with `closeClient`. Connects at the first query. */
export function staffClient(url: string): StaffDatabase {
  return Object.assign(drizzle(connect(url), { schema: everything }), { role: 'staff' as const });
}

/** A pool of connections as the public role; end it with `closeClient`. Connects at the first query. */
export function publicClient(url: string): PublicDatabase {
  return Object.assign(drizzle(connect(url), { schema: release }), { role: 'public' as const });
}

/** Ends the pool, after the queries under way (5 s at most). */
export async function closeClient(db: StaffDatabase | PublicDatabase): Promise<void> {
  await db.$client.end({ timeout: 5 });
}

function connect(url: string): Sql {
  return postgres(url, { max: 10, connect_timeout: 10, onnotice: () => {}, connection: { TimeZone: 'UTC' } });
}
