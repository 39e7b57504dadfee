/** `npm run people`: accounts of the staff side from the command line; the first administrator is made here. */
import type { StaffDatabase } from '@/db/clients';
import { addActivity } from '@/db/repositories/activity';
import { closeAccount, listPeople, personByEmail } from '@/db/repositories/people';
import { invitationLink, invite } from '@/lib/access/invite';
import { ROLES, type Role } from '@/lib/vocabulary/roles';
import { UsageError } from './support/command';
import { actor, say, staffCommand } from './support/staff-command';
import { staffAddress } from './support/staff-settings';

const USAGE = `npm run people -- [list] | add EMAIL "NAME" [--role ${ROLES.join('|')}]… | link EMAIL | close EMAIL`;

await staffCommand(USAGE, { role: { type: 'string', multiple: true } }, async (db, { values, words }) => {
  const [what = 'list', email, name] = words;
  if (what === 'list' && words.length <= 1) return list(db);
  if (what === 'add' && email && name) return add(db, { email, name, roles: roles(values.role) });
  if (what === 'link' && email) return link(db, email);
  if (what === 'close' && email) return close(db, email);
  throw new UsageError(`Usage: ${USAGE}`);
});

async function list(db: StaffDatabase): Promise<void> {
  for (const { name, email, roles: held, closedAt, ready } of await listPeople(db)) {
    const state = closedAt ? ` (closed ${closedAt.slice(0, 10)})` : ready ? '' : ' (no password yet)';
    say(`${name} <${email}>: ${held.join(', ')}${state}`);
  }
}

async function add(db: StaffDatabase, whom: { email: string; name: string; roles: Role[] }): Promise<void> {
  const made = await invite(db, { ...whom, address: staffAddress(process.env) });
  await note(db, 'people.manage', `invited ${made.person.email}`, { roles: whom.roles });
  say(`${made.person.name} chooses a password here, once, within seven days:\n${made.link}`);
}

async function link(db: StaffDatabase, email: string): Promise<void> {
  const person = await known(db, email);
  await note(db, 'people.manage', `new link for ${person.email}`);
  say(await invitationLink(db, { person, address: staffAddress(process.env) }));
}

async function close(db: StaffDatabase, email: string): Promise<void> {
  const person = await known(db, email);
  await closeAccount(db, person.id);
  await note(db, 'people.manage', `closed the account of ${person.email}`);
  say(`${person.name} is signed out everywhere and cannot sign in.`);
}

async function known(db: StaffDatabase, email: string) {
  const person = await personByEmail(db, email);
  if (person) return person;
  throw new UsageError(`${email} has no account. npm run people lists those that are there.`);
}

async function note(db: StaffDatabase, what: string, about: string, details = {}): Promise<void> {
  await addActivity(db, { personId: null, by: `${actor(undefined)} (command)`, what, about, details });
}

/** @throws UsageError for a word that is no role */
function roles(given: readonly string[] = ['administrator']): Role[] {
  return given.map((word) => {
    const role = ROLES.find((one) => one === word);
    if (role) return role;
    throw new UsageError(`“${word}” is no role.\nUsage: ${USAGE}`);
  });
}
