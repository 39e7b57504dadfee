import { fileURLToPath } from 'node:url';
import { drizzle } from 'drizzle-orm/postgres-js';
import { migrate as apply } from 'drizzle-orm/postgres-js/migrator';
import postgres, { type Sql } from 'postgres';
import { UserError } from './errors';
import { CLOSE_LARGE_OBJECTS } from './large-objects';
import { installQueue } from './queue';
import { createMissingRoles } from './roles';

const OLDEST = 15;

/**
 * Brings a database to this version's schema, as its owner: makes the roles where they are missing, applies the
 * migrations that are not yet applied. Under a lock, so that several processes may start together; the second finds
 * nothing to do. Errors: `UserError` on a server older than PostgreSQL 15, or without the right to make the roles.
 */
export async function migrate(ownerUrl: string): Promise<void> {
  const sql = postgres(ownerUrl, { max: 1, onnotice: () => {}, connect_timeout: 10 });
  try {
    await refuseOldServer(sql);
    await sql`select pg_advisory_lock(hashtext('fencerow.migrate'))`;
    await createMissingRoles(sql).catch(explainRoles);
    await apply(drizzle(sql), { migrationsFolder: fileURLToPath(new URL('./migrations', import.meta.url)) });
    await installQueue(sql);
    await closeLargeObjects(sql);
  } finally {
    await sql.end();
  }
}

/** The refusal of a server that is too old, else null. */
export function tooOld({ version, number }: { version: string; number: number }): UserError | null {
  if (number >= OLDEST * 10_000) return null;
  return new UserError(
    `The database server is PostgreSQL ${version}; Fencerow needs ${OLDEST} or newer.`,
    'Point DATABASE_URL at a newer server, or leave it away: then the project starts its own.',
  );
}

async function refuseOldServer(sql: Sql): Promise<void> {
  const [row] = await sql<{ version: string; number: number }[]>`
    select current_setting('server_version') as version, current_setting('server_version_num')::int as number`;
  const refusal = tooOld(row!);
  if (refusal !== null) throw refusal;
}

function explainRoles(error: unknown): never {
  if ((error as { code?: string }).code !== '42501') throw error;
  throw new UserError(
    'The roles fencerow_staff and fencerow_public do not exist on this server, and the user of DATABASE_URL may not make them.',
    'Let an administrator run “create role fencerow_staff login password …; create role fencerow_public login password …;” ' +
      'and set FENCEROW_STAFF_URL and FENCEROW_PUBLIC_URL, or give the user CREATEROLE.',
    { cause: error },
  );
}

/**
 * Any role may create large objects unless the functions are closed, which only a superuser can do (on the project's
 * own server it was done before: db/server). Elsewhere the public role's read-only default has to do.
 */
async function closeLargeObjects(sql: Sql): Promise<void> {
  const [row] = await sql<{ superuser: boolean }[]>`
    select rolsuper as superuser from pg_roles where rolname = current_user`;
  if (row!.superuser) await sql.unsafe(CLOSE_LARGE_OBJECTS);
}
