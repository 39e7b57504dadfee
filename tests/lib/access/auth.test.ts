import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { inTransaction } from '@/db/clients/transaction';
import { addActivity, listActivity } from '@/db/repositories/activity';
import { addPerson, closeAccount, personById, setRoles } from '@/db/repositories/people';
import { closeSeason } from '@/db/repositories/programme';
import { askAuth } from '@/lib/access/ask-auth';
import { makeAuth } from '@/lib/access/auth';
import { givePassword } from '@/lib/access/invite';
import { makeMailer } from '@/lib/access/mail';
import { may, RIGHTS, type Right } from '@/lib/access/rights';
import { ROLES } from '@/lib/vocabulary/roles';
import { type TestDatabase, testDatabase } from '../../support/database';

const PASSWORD = 'an invented password';
let database: TestDatabase;
let db: StaffDatabase;
beforeAll(async () => {
  database = await testDatabase();
  db = staffClient(database.staffUrl);
});
afterAll(async () => {
  await closeClient(db);
  await database.drop();
});

const auth = (address: string) =>
  makeAuth({
    db,
    address,
    secret: 'an invented secret, long enough for it',
    mail: async () => {},
    issuer: 'test',
  });

describe('a session', () => {
  it.each([
    ['https://staff.example.org', true],
    ['http://127.0.0.1:3001', false],
  ])('of %s is a cookie for TLS alone: %s', async (address, isSecure) => {
    const email = `${isSecure ? 'a' : 'b'}@example.org`;
    const { id } = await addPerson(db, { name: 'Invented', email, roles: ['analyst'] });
    await givePassword(db, id, PASSWORD);
    const { ok, cookies } = await askAuth(
      auth(address),
      '/sign-in/email',
      { email, password: PASSWORD },
      new Headers(),
    );
    expect(ok).toBe(true);
    expect(cookies).toHaveLength(1);
    expect(cookies[0]).toMatch(isSecure ? /^__Secure-fencerow\..*; Secure/ : /^fencerow\.(?!.*Secure)/);
    expect(cookies[0]).toMatch(/; HttpOnly; (Secure; )?SameSite=Strict$/);
    const stored = await db.$client<{ password: string }[]>`
      select password from access.credential where person_id = ${id}`;
    expect(stored[0]!.password).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
  });

  it('cannot be had by signing up', async () => {
    const body = { name: 'Stranger', email: 'stranger@example.org', password: PASSWORD };
    const { ok } = await askAuth(auth('http://127.0.0.1'), '/sign-up/email', body, new Headers());
    expect(ok).toBe(false);
    expect((await db.$client`select from access.person where email = ${body.email}`).count).toBe(0);
  });
});

describe('roles', () => {
  it('each may do something that nobody else may, or more than an educator', () => {
    const rights = Object.keys(RIGHTS) as Right[];
    for (const role of ROLES) expect(rights.some((right) => may([role], right))).toBe(true);
    const single = rights.filter((right) => RIGHTS[right].length === 1).map((right) => RIGHTS[right][0]);
    expect(new Set(single)).toEqual(new Set(['analyst', 'publisher', 'administrator']));
    expect(rights.filter((right) => may(['educator'], right)).sort()).toEqual([
      ...['account.change', 'counties.see', 'home.see'],
    ]);
  });

  it('leave one administrator at least', async () => {
    const { id } = await addPerson(db, { name: 'Only', email: 'only@example.org', roles: ['administrator'] });
    await expect(setRoles(db, { id, roles: ['analyst'] })).rejects.toThrow(
      'Somebody must stay administrator.',
    );
    await expect(inTransaction(db, (within) => closeAccount(within, id))).rejects.toThrow('administrator');
  });
});

describe('a transaction over repositories', () => {
  it('takes back what each of them stored, and its line in the log, when one fails', async () => {
    const failing = inTransaction(db, async (within) => {
      await closeSeason(within, { year: 1999, at: '2000-02-01T00:00:00Z' });
      const { id } = await addPerson(within, { name: 'Gone', email: 'gone@example.org', roles: ['analyst'] });
      expect(await personById(within, id)).toMatchObject({ roles: ['analyst'] });
      await addActivity(within, { personId: id, by: 'Gone', what: 'a test' });
      throw new Error('invented failure');
    });
    await expect(failing).rejects.toThrow('invented failure');
    expect((await db.$client`select from surveillance.season where year = 1999`).count).toBe(0);
    expect((await db.$client`select from access.person where email = 'gone@example.org'`).count).toBe(0);
    expect(await listActivity(db, { what: 'a test' })).toEqual([]);
  });
});

it('a setting that names no way to send mail is told at the start, and a missing one at the first letter', async () => {
  expect(() => makeMailer('mail.example.org', 'x@example.org')).toThrow(/names no mail server.*file:FOLDER/);
  const none = makeMailer(undefined, 'x@example.org');
  await expect(none({ to: 'a@example.org', subject: '', text: '' })).rejects.toThrow('no way to send mail');
});
