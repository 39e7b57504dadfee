import { randomUUID } from 'node:crypto';
import { ROLES, type Role } from '@/lib/vocabulary/roles';
import type { Fips } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';

/** Somebody with an account. */
export interface Person {
  id: string;
  name: string;
  email: string;
  roles: Role[];
  /** Counties whose private aggregates an educator may see. */
  counties: Fips[];
  /** Whether a second factor is asked for. */
  twoFactor: boolean;
  /** Whether one of the roles must have a second factor. */
  mustHaveFactor: boolean;
  /** Whether a password was chosen. */
  ready: boolean;
  /** ISO instant; null while the account is open. */
  closedAt: string | null;
}

/** All accounts, closed ones last. */
export async function listPeople(db: StaffDatabase): Promise<Person[]> {
  return read(db, null);
}

/** One account, or null. */
export async function personById(db: StaffDatabase, id: string): Promise<Person | null> {
  const [person] = await read(db, id);
  return person ?? null;
}

/** The account of an e-mail address, or null. */
export async function personByEmail(db: StaffDatabase, email: string): Promise<Person | null> {
  const [row] = await db.$client<{ id: string }[]>`
    select id from access.person where email = ${email.trim().toLowerCase()}`;
  return row ? personById(db, row.id) : null;
}

async function read(db: StaffDatabase, id: string | null): Promise<Person[]> {
  return db.$client<Person[]>`
    select p.id, p.name, p.email, p.two_factor_enabled as "twoFactor",
      exists (select from access.person_role r join access.factor_duty d using (role) where r.person_id = p.id) as "mustHaveFactor",
      to_char(p.closed_at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "closedAt",
      coalesce((select array_agg(r.role order by r.role) from access.person_role r where r.person_id = p.id), '{}') as roles,
      coalesce((select array_agg(c.county order by c.county) from access.person_county c where c.person_id = p.id), '{}') as counties,
      exists (select from access.credential c where c.person_id = p.id and c.password is not null) as ready
    from access.person p
    where ${id}::text is null or p.id = ${id}
    order by p.closed_at is not null, p.name, p.email`;
}

/** Makes an account without a password. @throws UserError where the address has one, or no role is given */
export async function addPerson(
  db: StaffDatabase,
  { name, email, roles }: { name: string; email: string; roles: readonly Role[] },
): Promise<Person> {
  const id = randomUUID();
  const added = await db.$client`
    insert into access.person (id, name, email) values (${id}, ${name.trim()}, ${email.trim().toLowerCase()})
    on conflict (email) do nothing`;
  if (added.count === 0) {
    throw new UserError(
      `${email} has an account already.`,
      'Change its roles, or open it again where it is closed.',
    );
  }
  await storeRoles(db, { id, roles });
  return (await personById(db, id))!;
}

/**
 * Gives a person exactly these roles, from their next request on.
 *
 * @throws UserError without a role, and where nobody would be administrator any more
 */
export async function setRoles(
  db: StaffDatabase,
  { id, roles }: { id: string; roles: readonly Role[] },
): Promise<void> {
  await storeRoles(db, { id, roles });
  await keepAnAdministrator(db);
}

async function storeRoles(
  db: StaffDatabase,
  { id, roles }: { id: string; roles: readonly Role[] },
): Promise<void> {
  if (roles.length === 0)
    throw new UserError('Nobody has no role.', 'Choose one or more, or close the account.');
  await db.$client.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(hashtext('fencerow.people'))`;
    await sql`delete from access.person_role where person_id = ${id}`;
    for (const role of ROLES.filter((one) => roles.includes(one))) {
      await sql`insert into access.person_role (person_id, role) values (${id}, ${role})`;
    }
  });
}

/** Assigns exactly these counties to an educator. */
export async function setCounties(
  db: StaffDatabase,
  { id, counties }: { id: string; counties: readonly Fips[] },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    await sql`delete from access.person_county where person_id = ${id}`;
    for (const county of new Set(counties)) {
      await sql`insert into access.person_county (person_id, county) values (${id}, ${county})`;
    }
  });
}

/**
 * Closes an account: it is signed out everywhere and cannot sign in; what it did keeps its name.
 *
 * @throws UserError where nobody would be administrator any more
 */
export async function closeAccount(db: StaffDatabase, id: string): Promise<void> {
  await db.$client.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(hashtext('fencerow.people'))`;
    await sql`update access.person set closed_at = coalesce(closed_at, now()), updated_at = now() where id = ${id}`;
    await sql`delete from access.session where person_id = ${id}`;
  });
  await keepAnAdministrator(db);
}

/** Opens a closed account again, with the roles that it had. */
export async function reopenAccount(db: StaffDatabase, id: string): Promise<void> {
  await db.$client`update access.person set closed_at = null, updated_at = now() where id = ${id}`;
}

/** Takes a second factor away from somebody who lost the device and the codes for that day. */
export async function removeSecondFactor(db: StaffDatabase, id: string): Promise<void> {
  await db.$client.begin(async (sql) => {
    await sql`delete from access.second_factor where person_id = ${id}`;
    await sql`update access.person set two_factor_enabled = false, updated_at = now() where id = ${id}`;
  });
}

/** Roles whose holders must have a second factor; none unless somebody chose them. */
export async function factorDuties(db: StaffDatabase): Promise<Role[]> {
  const rows = await db.$client<{ role: Role }[]>`select role from access.factor_duty`;
  return ROLES.filter((role) => rows.some((row) => row.role === role));
}

/** Asks a second factor of exactly these roles, from the next request of their holders on. */
export async function setFactorDuties(db: StaffDatabase, roles: readonly Role[]): Promise<void> {
  await db.$client.begin(async (sql) => {
    await sql`delete from access.factor_duty`;
    for (const role of new Set(roles)) await sql`insert into access.factor_duty (role) values (${role})`;
  });
}

async function keepAnAdministrator(db: StaffDatabase): Promise<void> {
  const [row] = await db.$client<{ accounts: number; administrators: number }[]>`
    select count(distinct p.id)::int as accounts,
      count(distinct p.id) filter (where r.role = 'administrator' and p.closed_at is null)::int as administrators
    from access.person p left join access.person_role r on r.person_id = p.id`;
  if (row!.administrators > 0 || row!.accounts === 0) return;
  throw new UserError('Somebody must stay administrator.', 'Give another open account that role first.');
}
