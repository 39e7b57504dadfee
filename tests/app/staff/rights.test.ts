import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { setRoles } from '@/db/repositories/people';
import { may } from '@/lib/access/rights';
import { ROLES, type Role } from '@/lib/vocabulary/roles';
import { addressOf, builtActions, staffDoors } from '../support/staff-doors';
import { openStaffSite, type StaffSite } from '../support/staff-site';

const ROOT = `${import.meta.dirname}/../../..`;
const DOORS = staffDoors(ROOT);
const GUARDED = DOORS.filter(({ right }) => right !== null);

/** What needs no right, each looked at by a person: to sign in and out, to choose a password. */
const OPEN = [
  'app/staff/account/actions.ts signOut',
  'app/staff/forgotten-password/actions.ts askForPassword',
  'app/staff/forgotten-password/page.tsx default',
  'app/staff/new-password/actions.ts choosePassword',
  'app/staff/new-password/page.tsx default',
  'app/staff/sign-in/actions.ts enterCode',
  'app/staff/sign-in/actions.ts signIn',
  'app/staff/sign-in/code/page.tsx default',
  'app/staff/sign-in/page.tsx default',
];

let site: StaffSite;
const cookies = new Map<Role | 'stranger', string>();
beforeAll(async () => {
  site = await openStaffSite();
  for (const role of ROLES) cookies.set(role, await site.cookieOf(site.people[role]));
  cookies.set('stranger', 'fencerow.session_token=invented.signature');
}, 600_000);
afterAll(() => site?.close());

const get = (path: string, cookie: string, method = 'GET') =>
  fetch(site.url + path, { method, headers: { cookie, origin: site.url }, redirect: 'manual' });

/** Sends an action an empty form, as the page's own script would. */
async function send(id: string, page: string, cookie: string, origin = site.url): Promise<Response> {
  const body = new FormData();
  body.set('0', '[null,"$K1"]');
  return fetch(site.url + page, {
    method: 'POST',
    headers: { cookie, origin, 'next-action': id, accept: 'text/x-component' },
    body,
    redirect: 'manual',
  });
}

const stateIn = (answer: string) => /"state":"([a-z ]+)"/.exec(answer)?.[1];

describe('every way into the staff side', () => {
  it('asks for a right, except those that are known to need none', () => {
    const open = DOORS.filter(({ right }) => right === null).map(({ file, name }) => `${file} ${name}`);
    expect(open.sort()).toEqual([...OPEN].sort());
    expect(GUARDED.length).toBeGreaterThan(8);
  });

  it('is known to this test: the build holds no other action', () => {
    const known = DOORS.filter(({ kind }) => kind === 'action').map(({ file, name }) => `${file} ${name}`);
    const built = builtActions(ROOT).map(({ file, name }) => `${file} ${name}`);
    expect(built.filter((one) => !known.includes(one))).toEqual([]);
  });

  it.each(GUARDED.filter(({ kind }) => kind !== 'action'))('$file opens to its roles alone', async (door) => {
    const address = addressOf(door.file);
    const method = door.kind === 'route' ? door.name : 'GET';
    const stranger = await get(address, cookies.get('stranger')!, method);
    expect([stranger.status, stranger.headers.get('location') ?? '']).toEqual(
      door.kind === 'page' ? [307, expect.stringContaining('/staff/sign-in')] : [401, ''],
    );
    for (const role of ROLES) {
      const { status } = await get(address, cookies.get(role)!, method);
      if (may([role], door.right!)) expect([200, 307, 404, 422], `${role}: ${status}`).toContain(status);
      else expect(status, role).toBe(403);
    }
  });

  it('by an action opens to its roles alone, and to nobody from another site', async () => {
    for (const { id, file, name, page } of builtActions(ROOT)) {
      const door = GUARDED.find((one) => one.file === file && one.name === name);
      if (!door) continue;
      const stranger = await send(id, page, cookies.get('stranger')!);
      expect(stateIn(await stranger.text()), `${name} by a stranger`).toBe('signed out');
      expect((await send(id, page, cookies.get('administrator')!, 'https://example.org')).status).toBe(403);
      for (const role of ROLES) {
        const state = stateIn(await (await send(id, page, cookies.get(role)!)).text());
        if (may([role], door.right!))
          expect(['done', 'invalid', 'refused'], `${name} by ${role}`).toContain(state);
        else expect(state, `${name} by ${role}`).toBe('forbidden');
      }
    }
  }, 300_000);
});

it('a role that is taken away is gone at the next request of a session under way', async () => {
  const { id } = site.people.publisher;
  await setRoles(site.db, { id, roles: ['publisher', 'administrator'] });
  const cookie = cookies.get('publisher')!;
  expect((await get('/staff/people', cookie)).status).toBe(200);
  await setRoles(site.db, { id, roles: ['publisher'] });
  expect((await get('/staff/people', cookie)).status).toBe(403);
  const { id: action, page } = builtActions(ROOT).find(({ name }) => name === 'changeRoles')!;
  expect(stateIn(await (await send(action, page, cookie)).text())).toBe('forbidden');
});
