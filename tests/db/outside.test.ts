import { chmodSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import postgres from 'postgres';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { UserError } from '@/db/errors';
import { migrate } from '@/db/migrate';
import journal from '@/db/migrations/meta/_journal.json';
import { openDatabase } from '@/db/open';
import { choosePort } from '@/db/server/port';
import { type OutsideServer, startDebianPostgres } from '../support/debian-postgres';

let server: OutsideServer;
let folder: string;
let ownerUrl: string;
let databases = 0;

beforeAll(async () => {
  server = await startDebianPostgres('keeper-secret');
  await asKeeper(`create role programme login createrole password 'pro%40gramme'`);
});

afterAll(() => server?.stop());

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-outside-data-'));
  chmodSync(folder, 0o755);
  databases += 1;
  await asKeeper(`create database programme_${databases} owner programme`);
  ownerUrl = server.url('programme', 'pro%2540gramme', `programme_${databases}`);
  return () => rmSync(folder, { recursive: true, force: true });
});

async function ask(url: string, query: string): Promise<unknown[]> {
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  try {
    return [...(await sql.unsafe(query))];
  } finally {
    await sql.end();
  }
}

const asKeeper = (query: string, database = 'postgres') =>
  ask(server.url('keeper', 'keeper-secret', database), query);
const open = (env: Record<string, string> = {}) =>
  openDatabase({ env: { DATABASE_URL: ownerUrl, FENCEROW_DATA: folder, ...env } });

/** As on a server that never saw the project: no role of its own, and so no database that gives rights to one. */
async function forgetRoles(): Promise<void> {
  for (let i = 1; i < databases; i++) await asKeeper(`drop database if exists programme_${i} with (force)`);
  await asKeeper('drop role if exists fencerow_staff, fencerow_public');
}

async function refusal(work: Promise<unknown>): Promise<string> {
  const error = await work.then(
    () => new Error('it was not refused'),
    (reason: unknown) => reason,
  );
  if (!(error instanceof UserError)) throw error;
  for (const secret of ['gramme@', 'pro%', 'keeper-secret']) expect(error.message).not.toContain(secret);
  return error.message;
}

const MIGRATIONS = journal.entries.length;

describe('with DATABASE_URL', () => {
  it('that server is used, the roles are made once, and nothing is started', async () => {
    await forgetRoles();
    const first = await open();
    expect(await ask(first.staffUrl, 'select current_user as name')).toEqual([{ name: 'fencerow_staff' }]);
    expect(await ask(first.publicUrl, 'select current_user as name')).toEqual([{ name: 'fencerow_public' }]);
    expect(await ask(first.url, 'show server_version_num')).toEqual([
      { server_version_num: expect.stringMatching(`^${server.major}`) },
    ]);
    expect(existsSync(join(folder, 'server'))).toBe(false);
    await first.stop();
    expect(await open()).toMatchObject({
      url: first.url,
      staffUrl: first.staffUrl,
      publicUrl: first.publicUrl,
    });
  });

  it('the public role reads release and nothing else there too', async () => {
    await forgetRoles();
    const { publicUrl } = await open();
    expect(await ask(publicUrl, 'select * from release.cell')).toEqual([]);
    for (const query of [
      'select * from intake.record',
      'select * from surveillance.test',
      'begin read write; create temp table mine (a int)',
      'begin read write; create table public.mine (a int)',
      'begin read write; delete from release.cell',
    ]) {
      await expect(ask(publicUrl, query), query).rejects.toMatchObject({ code: '42501' });
    }
  });

  it('two processes may bring the same empty database up to date at once, and again', async () => {
    await Promise.all([migrate(ownerUrl), migrate(ownerUrl), migrate(ownerUrl)]);
    await migrate(ownerUrl);
    expect(
      await ask(
        ownerUrl,
        'select count(*)::int as applied, count(distinct hash)::int as kinds from drizzle.__drizzle_migrations',
      ),
    ).toEqual([{ applied: MIGRATIONS, kinds: MIGRATIONS }]);
  });

  it('a second database of the server shares the roles', async () => {
    await forgetRoles();
    const first = await open();
    databases += 1;
    await asKeeper(`create database programme_${databases} owner programme`);
    const second = await open({
      DATABASE_URL: server.url('programme', 'pro%2540gramme', `programme_${databases}`),
    });
    expect(new URL(second.staffUrl).password).toBe(new URL(first.staffUrl).password);
  });

  it('passwords of the environment are given to the roles, and given again when they change', async () => {
    await forgetRoles();
    const one = await open({ FENCEROW_STAFF_PASSWORD: `o'ne@`, FENCEROW_PUBLIC_PASSWORD: 'two' });
    expect(await ask(one.staffUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    expect(existsSync(join(folder, 'passwords.json'))).toBe(false);
    const changed = await open({ FENCEROW_STAFF_PASSWORD: 'three', FENCEROW_PUBLIC_PASSWORD: 'two' });
    expect(await ask(changed.staffUrl, 'select 1 as one')).toEqual([{ one: 1 }]);
    await expect(ask(one.staffUrl, 'select 1')).rejects.toMatchObject({ code: '28P01' });
  });

  it('URLs of the environment are taken as they are', async () => {
    const given = {
      FENCEROW_STAFF_URL: 'postgres://a:b@elsewhere/c',
      FENCEROW_PUBLIC_URL: 'postgres://d:e@elsewhere/c',
    };
    expect(await open(given)).toMatchObject({
      staffUrl: given.FENCEROW_STAFF_URL,
      publicUrl: given.FENCEROW_PUBLIC_URL,
    });
  });
});

describe('what a person can put right is said with place and remedy', () => {
  it('a role whose password another data folder keeps', async () => {
    await forgetRoles();
    await open();
    const other = join(folder, 'other');
    expect(await refusal(open({ FENCEROW_DATA: other }))).toMatch(
      /role fencerow_staff of the database server 127\.0\.0\.1:.* Set FENCEROW_STAFF_PASSWORD \(or FENCEROW_STAFF_URL\)/,
    );
  });

  it('a wrong password, an unknown user, a database that is not there', async () => {
    const place = `DATABASE_URL (127.0.0.1:${server.port}/`;
    expect(await refusal(open({ DATABASE_URL: server.url('programme', 'wrong', 'programme_1') }))).toContain(
      `${place}programme_1): the server refuses this user or password`,
    );
    expect(await refusal(open({ DATABASE_URL: server.url('nobody', 'wrong', 'programme_1') }))).toContain(
      'refuses this user or password',
    );
    expect(
      await refusal(open({ DATABASE_URL: server.url('programme', 'pro%2540gramme', 'absent') })),
    ).toContain(`${place}absent): the server has no such database`);
  });

  it('a server that is not there, a host that is not known, an address that is none', async () => {
    const port = await choosePort(null, null);
    expect(await refusal(open({ DATABASE_URL: `postgres://a:b@127.0.0.1:${port}/c` }))).toMatch(
      /no database server answers there \(ECONNREFUSED\).*leave DATABASE_URL away/,
    );
    expect(await refusal(open({ DATABASE_URL: 'postgres://a:b@fencerow.invalid/c' }))).toContain(
      'that host is not known',
    );
    for (const text of ['mysql://a:b@127.0.0.1/c', 'fencerow', '127.0.0.1:5432']) {
      expect(await refusal(open({ DATABASE_URL: text }))).toMatch(
        /DATABASE_URL is not the URL of a PostgreSQL database\. Write it as/,
      );
    }
  });

  it('a program that answers, but not as a database', async () => {
    const answers = [
      (socket: Socket) => socket.end('HTTP/1.1 400 Bad Request\r\n\r\n'),
      (socket: Socket) => socket.end(),
    ];
    for (const answer of answers) {
      const other = createServer((socket) => void answer(socket.on('error', () => {}).resume()));
      const port = await listening(other);
      const url = `postgres://a:b@127.0.0.1:${port}/c`;
      expect(await refusal(open({ DATABASE_URL: url }))).toContain('no database server answers there');
      await new Promise((resolve) => other.close(resolve));
    }
  });

  it('a user who may not make the roles, or not make schemas', async () => {
    await forgetRoles();
    await asKeeper(`create role modest login password 'modest'`);
    await asKeeper(`create database modest owner modest`);
    expect(await refusal(open({ DATABASE_URL: server.url('modest', 'modest', 'modest') }))).toMatch(
      /may not make them.*create role fencerow_staff/,
    );
    await open();
    const elsewhere = { FENCEROW_DATA: join(folder, 'other') };
    expect(
      await refusal(open({ DATABASE_URL: server.url('modest', 'modest', 'modest'), ...elsewhere })),
    ).toMatch(/password that neither .* knows/);
    await asKeeper(`grant connect on database programme_${databases} to modest`);
    expect(
      await refusal(open({ DATABASE_URL: server.url('modest', 'modest', `programme_${databases}`) })),
    ).toMatch(/may not do this in the database/);
    await asKeeper('drop database modest with (force)');
  });
});

function listening(server: Server): Promise<number> {
  return new Promise((resolve) =>
    server.listen(0, '127.0.0.1', () => resolve((server.address() as { port: number }).port)),
  );
}
