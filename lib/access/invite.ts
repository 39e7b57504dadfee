import { randomBytes, randomUUID } from 'node:crypto';
import type { StaffDatabase } from '@/db/clients/staff';
import { inTransaction } from '@/db/clients/transaction';
import { addPerson, type Person } from '@/db/repositories/people';
import type { Role } from '@/lib/vocabulary/roles';
import { hashPassword, passwordLink } from './auth';
import { INVITATION_DAYS } from './letters';

/** Whom to invite, and to what. */
export interface Invitation {
  name: string;
  email: string;
  roles: readonly Role[];
}

/**
 * Makes an account without a password, and the link by which its owner chooses one (once, within seven days).
 *
 * @throws UserError where the address has an account
 */
export async function invite(
  db: StaffDatabase,
  { address, ...whom }: Invitation & { address: string },
): Promise<{ person: Person; link: string }> {
  return inTransaction(db, async (within) => {
    const person = await addPerson(within, whom);
    return { person, link: await invitationLink(within, { person, address }) };
  });
}

/** A new link for somebody who was invited and let the first one lapse. */
export async function invitationLink(
  db: StaffDatabase,
  { person, address }: { person: Person; address: string },
): Promise<string> {
  const token = randomBytes(24).toString('base64url');
  await db.$client`
    insert into access.verification (id, identifier, value, expires_at)
    values (${randomUUID()}, ${`reset-password:${token}`}, ${person.id}, now() + make_interval(days => ${INVITATION_DAYS}))`;
  return passwordLink(address, token);
}

/** Gives an account a password without a letter: for the demonstration and for tests. */
export async function givePassword(db: StaffDatabase, id: string, password: string): Promise<void> {
  const hash = await hashPassword(password);
  await db.$client`delete from access.credential where person_id = ${id} and provider_id = 'credential'`;
  await db.$client`
    insert into access.credential (id, account_id, provider_id, person_id, password)
    values (${randomUUID()}, ${id}, 'credential', ${id}, ${hash})`;
}
