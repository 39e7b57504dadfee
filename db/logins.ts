import postgres, { type Sql } from 'postgres';
import { explainConnection, placeOf } from './connection-errors';
import { UserError } from './errors';
import { newPassword, ROLE_NAMES, type RoleName, setPassword } from './roles';
import { keepPasswords, keptPasswords } from './server/passwords';

export interface LoginOptions {
  /** URL of the migrated database, as its owner. */
  ownerUrl: string;
  /** Where passwords that are made now are kept. */
  dataFolder: string;
  /** Name of the server in that folder: `own` or `host:port`. */
  server: string;
  env: Readonly<Record<string, string | undefined>>;
}

const VARIABLES: Record<RoleName, { url: string; password: string }> = {
  fencerow_staff: { url: 'FENCEROW_STAFF_URL', password: 'FENCEROW_STAFF_PASSWORD' },
  fencerow_public: { url: 'FENCEROW_PUBLIC_URL', password: 'FENCEROW_PUBLIC_PASSWORD' },
};

/**
 * URLs with which the staff and the public role log in to a database. In this order: the URL that the environment
 * gives (`FENCEROW_STAFF_URL`, `FENCEROW_PUBLIC_URL`); the password that it gives (`FENCEROW_STAFF_PASSWORD`,
 * `FENCEROW_PUBLIC_PASSWORD`), which the role is given when it has another; the password that the data folder keeps;
 * a new one, kept from now on, when nobody gave the role one yet.
 * Errors: `UserError` when the role has a password that is not known here.
 */
export async function roleUrls(options: LoginOptions): Promise<{ staffUrl: string; publicUrl: string }> {
  const sql = postgres(options.ownerUrl, { max: 1, onnotice: () => {} });
  try {
    await sql`select pg_advisory_lock(hashtext('fencerow.logins'))`;
    const urls = new Map<RoleName, string>();
    for (const role of ROLE_NAMES) urls.set(role, await roleUrl(sql, role, options));
    return { staffUrl: urls.get('fencerow_staff')!, publicUrl: urls.get('fencerow_public')! };
  } finally {
    await sql.end();
  }
}

async function roleUrl(sql: Sql, role: RoleName, options: LoginOptions): Promise<string> {
  const { ownerUrl, dataFolder, server, env } = options;
  const given = env[VARIABLES[role].url];
  if (given) return given;

  const wanted = env[VARIABLES[role].password];
  const kept = keptPasswords(dataFolder, server)[role];
  const [row] = await sql<{ login: boolean }[]>`
    select rolcanlogin as login from pg_roles where rolname = ${role}`;
  const known = wanted || kept;
  if (known && (await logsIn(urlFor(ownerUrl, role, known)))) return urlFor(ownerUrl, role, known);
  if (row!.login && !wanted) throw unknownPassword(role, options);

  const password = known || newPassword();
  if (!known) keepPasswords(dataFolder, server, { [role]: password });
  await setPassword(sql, role, password).catch((error: unknown) => {
    if ((error as { code?: string }).code !== '42501') throw error;
    throw unknownPassword(role, options, error);
  });
  return urlFor(ownerUrl, role, password);
}

async function logsIn(url: string): Promise<boolean> {
  const sql = postgres(url, { max: 1, connect_timeout: 10 });
  try {
    await sql`select 1`;
    return true;
  } catch (error) {
    if (['28P01', '28000'].includes((error as { code?: string }).code ?? '')) return false;
    throw explainConnection(error, url, 'The URL of the role');
  } finally {
    await sql.end({ timeout: 1 });
  }
}

function urlFor(ownerUrl: string, role: RoleName, password: string): string {
  const url = new URL(ownerUrl);
  url.username = role;
  url.password = encodeURIComponent(password);
  return url.href;
}

function unknownPassword(role: RoleName, { ownerUrl, dataFolder }: LoginOptions, cause?: unknown): UserError {
  const { url, password } = VARIABLES[role];
  return new UserError(
    `The role ${role} of the database server ${placeOf(ownerUrl)} has a password that neither ${dataFolder} nor the environment knows; another machine or data folder set it.`,
    `Set ${password} (or ${url}) to what that one uses, or to a new password, which the role is then given where you may.`,
    { cause },
  );
}
