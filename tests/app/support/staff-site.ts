import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { addPerson, type Person } from '@/db/repositories/people';
import { makeAuth } from '@/lib/access/auth';
import { givePassword } from '@/lib/access/invite';
import { ROLES, type Role } from '@/lib/vocabulary/roles';
import { startStaffProcess } from '@/scripts/support/staff-process';
import { type TestDatabase, testDatabase } from '../../support/database';

/** The staff side as it is served, over a test's own database, with one invented account of each role. */
export interface StaffSite {
  url: string;
  db: StaffDatabase;
  database: TestDatabase;
  people: Record<Role, Person>;
  /** Letters that were sent so far, the oldest first, as they travel. */
  letters: () => string[];
  /** A Cookie header of a new session. */
  cookieOf: (person: Person) => Promise<string>;
  close: () => Promise<void>;
}

export const PASSWORD = 'an invented password';
const SECRET = 'an invented secret of the tests, long enough';

/** Starts the staff side on a free port. Builds the site where needed. */
export async function openStaffSite(
  prepare: (db: StaffDatabase, database: TestDatabase) => Promise<void> = async () => {},
): Promise<StaffSite> {
  const database = await testDatabase();
  const db = staffClient(database.staffUrl);
  await prepare(db, database);
  const people = {} as Record<Role, Person>;
  for (const role of ROLES) {
    people[role] = await addPerson(db, {
      name: `Invented ${role}`,
      email: `${role}@example.org`,
      roles: [role],
    });
    await givePassword(db, people[role].id, PASSWORD);
  }
  const folder = mkdtempSync(join(tmpdir(), 'fencerow-mail-'));
  const site = await startStaffProcess({
    port: 0,
    staffUrl: database.staffUrl,
    publicSite: 'http://127.0.0.1:3000',
    mail: `file:${folder}`,
    env: { FENCEROW_SECRET: SECRET, NODE_ENV: 'production' },
  });
  return {
    url: site.url,
    db,
    database,
    people,
    letters: () =>
      readdirSync(folder)
        .sort()
        .map((name) => readFileSync(join(folder, name), 'utf8')),
    cookieOf: (person) => signIn(db, site.url, person),
    close: async () => {
      await site.close();
      await closeClient(db);
      await database.drop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A session by the same library with the same secret, without the limit on attempts. */
async function signIn(db: StaffDatabase, address: string, person: Person): Promise<string> {
  const auth = makeAuth({ db, address, secret: SECRET, mail: async () => {}, issuer: 'test' });
  const answer = await auth.api.signInEmail({
    body: { email: person.email, password: PASSWORD },
    asResponse: true,
  });
  if (!answer.ok) throw new Error(`${person.email} cannot sign in: ${await answer.text()}`);
  return answer.headers
    .getSetCookie()
    .map((line) => line.split(';', 1)[0])
    .join('; ');
}
