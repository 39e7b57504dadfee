import { drizzle, type PostgresJsDatabase } from 'drizzle-orm/postgres-js';
import type { Sql } from 'postgres';
import * as access from '../schema/access';
import * as drafts from '../schema/drafts';
import * as intake from '../schema/intake';
import * as jobs from '../schema/jobs';
import * as release from '../schema/release';
import * as surveillance from '../schema/surveillance';
import { connect } from './connect';

const everything = { ...access, ...intake, ...surveillance, ...jobs, ...drafts, ...release };

/** The programme's staff: reads and writes `access`, `intake` and `surveillance`, adds releases. */
export type StaffDatabase = PostgresJsDatabase<typeof everything> & { $client: Sql; readonly role: 'staff' };

/** A pool of connections as the staff role; end it with `closeClient`. */
export function staffClient(url: string): StaffDatabase {
  return Object.assign(drizzle(connect(url), { schema: everything }), { role: 'staff' as const });
}
