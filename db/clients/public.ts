import { drizzle, type PostgresJsDatabase } from 'drizzle-orm/postgres-js';
import type { Sql } from 'postgres';
import * as release from '../schema/release';
import { connect } from './connect';

/** Whoever reads what is released: anybody, and the staff too. */
export type ReleaseReader = PostgresJsDatabase<typeof release> & { $client: Sql };

/** Anybody: reads `release`, and has no right on anything else. */
export type PublicDatabase = ReleaseReader & { readonly role: 'public' };

/** A pool of connections as the public role; end it with `closeClient`. */
export function publicClient(url: string): PublicDatabase {
  return Object.assign(drizzle(connect(url), { schema: release }), { role: 'public' as const });
}
