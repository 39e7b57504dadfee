import { randomBytes } from 'node:crypto';
import type { Sql } from 'postgres';

/** The two roles beside the owner. They belong to the whole server; each database gives them their rights. */
export type RoleName = 'fencerow_staff' | 'fencerow_public';
export const ROLE_NAMES: readonly RoleName[] = ['fencerow_staff', 'fencerow_public'];

/** What the public role starts with; its lack of rights is what protects, these bound what a slow query can cost. */
const PUBLIC_SETTINGS = {
  default_transaction_read_only: 'on',
  statement_timeout: '10s',
  idle_in_transaction_session_timeout: '30s',
  lock_timeout: '5s',
};

/**
 * Makes the roles that are missing, without a password (nobody can log in yet). Safe when several databases of one
 * server do it at once. The caller needs the right CREATEROLE where one is missing. Returns those that were made.
 */
export async function createMissingRoles(sql: Sql): Promise<RoleName[]> {
  const made: RoleName[] = [];
  for (const role of ROLE_NAMES) {
    if (await exists(sql, role)) continue;
    if (await created(sql, role)) made.push(role);
  }
  return made;
}

/** Gives a role its login and password. */
export async function setPassword(sql: Sql, role: RoleName, password: string): Promise<void> {
  await sql.unsafe(`alter role ${role} login password '${password.replaceAll("'", "''")}'`);
}

/** 192 random bits, in characters that need no escape in a URL. */
export function newPassword(): string {
  return randomBytes(24).toString('base64url');
}

async function exists(sql: Sql, role: RoleName): Promise<boolean> {
  return (await sql`select from pg_roles where rolname = ${role}`).count > 0;
}

const ALREADY_THERE = ['42710', '23505'];

async function created(sql: Sql, role: RoleName): Promise<boolean> {
  try {
    await sql.unsafe(`create role ${role} nologin nosuperuser nocreatedb nocreaterole`);
  } catch (error) {
    if (ALREADY_THERE.includes((error as { code?: string }).code ?? '')) return false;
    throw error;
  }
  if (role === 'fencerow_public') {
    for (const [name, value] of Object.entries(PUBLIC_SETTINGS)) {
      await sql.unsafe(`alter role ${role} set ${name} = '${value}'`);
    }
  }
  return true;
}
