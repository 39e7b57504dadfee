import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import postgres from 'postgres';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { UserError } from '@/db/errors';
import { type OpenDatabase, openDatabase } from '@/db/open';
import { packagedNative } from '@/db/server/binaries';
import { expectedHome } from '@/db/server/home';
import { ownServerStatus, stopOwnServer } from '@/db/server/own';
import { isAlive } from '@/db/server/postmaster';

let folder: string;
let said: string[];
const log = (line: string) => said.push(line);

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'fencerow-server-'));
  chmodSync(folder, 0o755);
  said = [];
});

afterEach(async () => {
  const home = expectedHome(folder);
  await stopOwnServer(folder, log).catch(() => {});
  for (const path of [home, folder]) rmSync(path, { recursive: true, force: true });
});

const open = (env: Record<string, string> = {}, keepRunning = false) =>
  openDatabase({ env: { FENCEROW_DATA: folder, ...env }, log, keepRunning });

async function ask(url: string, query = 'select current_user as name'): Promise<unknown[]> {
  const sql = postgres(url, { max: 1, onnotice: () => {} });
  try {
    return [...(await sql.unsafe(query))];
  } finally {
    await sql.end();
  }
}

/** A command of the project that opens the database, says so, and then waits. */
async function command(script = 'setInterval(() => {}, 1000);'): Promise<ChildProcess> {
  const source = `
    const { openDatabase } = await import('${process.cwd()}/db/open.ts');
    await openDatabase({ log: console.error });
    console.log('open');
    ${script}`;
  const child = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '--eval', source], {
    env: { ...process.env, FENCEROW_DATA: folder, DATABASE_URL: '' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await new Promise<void>((resolve, reject) => {
    child.stdout!.once('data', () => resolve());
    child.once('exit', (code) => reject(new Error(`the command ended with ${code}`)));
  });
  return child;
}

function ended(child: ChildProcess): Promise<{ code: number | null; signal: string | null }> {
  return new Promise((resolve) => child.once('exit', (code, signal) => resolve({ code, signal })));
}

describe('the project’s own server', () => {
  it('starts on an empty folder, lets its three roles in, keeps its data, and stops', async () => {
    const first = await open();
    expect(await ask(first.url)).toEqual([{ name: 'fencerow_owner' }]);
    expect(await ask(first.staffUrl)).toEqual([{ name: 'fencerow_staff' }]);
    expect(await ask(first.publicUrl)).toEqual([{ name: 'fencerow_public' }]);
    await ask(first.staffUrl, 'insert into surveillance.season (year) values (2024)');
    const { port } = ownServerStatus(folder)!;
    await first.stop();
    expect(ownServerStatus(folder)).toBeNull();
    await expect(ask(first.url)).rejects.toMatchObject({ code: 'ECONNREFUSED' });

    const second = await open();
    expect(second.url).toBe(first.url);
    expect(ownServerStatus(folder)!.port).toBe(port);
    expect(await ask(second.staffUrl, 'select year from surveillance.season')).toEqual([{ year: 2024 }]);
    await second.stop();
  });

  it('listens on 127.0.0.1 alone, writes to disk, and keeps passwords and data to itself', async () => {
    const database = await open();
    const settings = ['listen_addresses', 'fsync', 'data_checksums'].map(
      (name) => `current_setting('${name}') as ${name}`,
    );
    expect(await ask(database.url, `select ${settings.join(', ')}`)).toEqual([
      { listen_addresses: '127.0.0.1', fsync: 'on', data_checksums: 'on' },
    ]);
    const socketFolder = readFileSync(join(folder, 'server', 'cluster', 'postmaster.pid'), 'utf8').split(
      '\n',
    )[4];
    expect(socketFolder).toBe('');
    expect(statSync(join(folder, 'passwords.json')).mode & 0o777).toBe(0o600);
    expect(statSync(join(folder, 'server', 'cluster')).mode & 0o777).toBe(0o700);
    const wrong = new URL(database.url);
    wrong.password = 'wrong';
    await expect(ask(wrong.href)).rejects.toMatchObject({ code: '28P01' });
    await database.stop();
  });

  it('gives the owner no superuser, and closes large objects to everybody', async () => {
    const database = await open();
    expect(await ask(database.url, 'select rolsuper from pg_roles where rolname = current_user')).toEqual([
      { rolsuper: false },
    ]);
    for (const url of [database.staffUrl, database.publicUrl]) {
      await expect(ask(url, 'begin read write; select lo_create(0)')).rejects.toMatchObject({
        code: '42501',
      });
    }
    await database.stop();
  });

  it('is joined by a second command, which leaves it running', async () => {
    const first = await open();
    const second = await open();
    expect(second.url).toBe(first.url);
    await second.stop();
    expect(await ask(first.url)).toHaveLength(1);
    await first.stop();
    expect(ownServerStatus(folder)).toBeNull();
  });

  it('is made and started once by commands that begin together', async () => {
    const commands = await Promise.all([command(), command(), command()]);
    expect(ownServerStatus(folder)).not.toBeNull();
    const exits = commands.map(ended);
    for (const child of commands) child.kill('SIGTERM');
    expect((await Promise.all(exits)).map(({ signal }) => signal)).toEqual(['SIGTERM', 'SIGTERM', 'SIGTERM']);
    expect(ownServerStatus(folder)).toBeNull();
  });

  it.each(['SIGINT', 'SIGTERM'] as const)(
    'stops when its command is ended by %s, which ends by it',
    async (signal) => {
      const child = await command();
      const { pid } = ownServerStatus(folder)!;
      const exit = ended(child);
      child.kill(signal);
      expect(await exit).toEqual({ code: null, signal });
      expect(isAlive(pid)).toBe(false);
    },
  );

  it('stops when its command ends by itself, with its exit code', async () => {
    const child = await command('setTimeout(() => process.exit(3), 100);');
    const { pid } = ownServerStatus(folder)!;
    expect(await ended(child)).toEqual({ code: 3, signal: null });
    expect(isAlive(pid)).toBe(false);
  });

  it('survives a command that was killed, and is then stopped by the next one', async () => {
    const child = await command();
    const exit = ended(child);
    child.kill('SIGKILL');
    await exit;
    const { pid } = ownServerStatus(folder)!;
    const next = await open();
    expect(ownServerStatus(folder)!.pid).toBe(pid);
    await next.stop();
    expect(isAlive(pid)).toBe(false);
  });

  it('goes on after its command when asked to, until it is stopped by name', async () => {
    const first = await open({}, true);
    await first.stop();
    const second = await open();
    await second.stop();
    expect(await ask(first.url)).toHaveLength(1);
    expect(await stopOwnServer(folder, log)).toBe(true);
    expect(await stopOwnServer(folder, log)).toBe(false);
  });

  it('starts again after it was killed itself', async () => {
    const first = await open({}, true);
    await ask(first.staffUrl, 'insert into surveillance.season (year) values (2024)');
    const { pid } = ownServerStatus(folder)!;
    process.kill(pid, 'SIGKILL');
    while (isAlive(pid)) await sleep(20);
    const second = await open();
    expect(await ask(second.staffUrl, 'select year from surveillance.season')).toEqual([{ year: 2024 }]);
    await second.stop();
  });

  it('takes no other process for its own when a lock file of it is left behind', async () => {
    const first = await open();
    await first.stop();
    const lock = join(folder, 'server', 'cluster', 'postmaster.pid');
    for (const pid of [process.pid, 2 ** 22 + 1]) {
      writeFileSync(lock, `${pid}\n${join(folder, 'server', 'cluster')}\n1700000000\n5432\n\n127.0.0.1\n`);
      writeFileSync(join(folder, 'starting.lock'), String(2 ** 22 + 1));
      const again = await open();
      expect(ownServerStatus(folder)!.pid).not.toBe(pid);
      await again.stop();
    }
  });

  it('moves to another port when somebody took the one that it had', async () => {
    const first = await open();
    const { port } = ownServerStatus(folder)!;
    await first.stop();
    const taken = createServer();
    await new Promise<void>((resolve) => taken.listen(port, '127.0.0.1', resolve));
    const second = await open();
    expect(ownServerStatus(folder)!.port).not.toBe(port);
    expect(said).toContainEqual(expect.stringContaining(`Port ${port} is taken`));
    await second.stop();
    await new Promise((resolve) => taken.close(resolve));
  });

  it('runs from a path with spaces, quotes and dollars', async () => {
    const odd = join(folder, `a "b" $HOME 'c' ü`);
    // Where only root may enter the project, its programs must be copied, and from such a path they cannot be run.
    if (copiesPrograms()) {
      expect(await refusal(open({ FENCEROW_DATA: odd }))).toMatch(
        /FENCEROW_DATA to a folder without quotation marks/,
      );
      return;
    }
    const database = await open({ FENCEROW_DATA: odd });
    expect(await ask(database.url)).toHaveLength(1);
    await database.stop();
  });

  if (process.getuid?.() === 0) {
    it('as root, keeps its files elsewhere when only root may enter the data folder, and finds them again', async () => {
      chmodSync(folder, 0o700);
      const first = await open();
      const home = expectedHome(folder);
      expect(home.startsWith(folder)).toBe(false);
      expect(spoken()).toEqual([expect.stringMatching(/cannot be entered by the account .*FENCEROW_DATA/)]);
      await ask(first.staffUrl, 'insert into surveillance.season (year) values (2024)');
      await first.stop();
      const second = await open();
      expect(expectedHome(folder)).toBe(home);
      expect(spoken()).toHaveLength(1);
      expect(await ask(second.staffUrl, 'select year from surveillance.season')).toEqual([{ year: 2024 }]);
      await second.stop();
      rmSync(home, { recursive: true });
      const third = await open();
      expect(spoken()[1]).toMatch(/is gone; starting with an empty one/);
      await third.stop();
    });
  }
});

/** What was said, but for the copying of programs, which depends on where the project lies. */
function spoken(): string[] {
  return said.filter((line) => !line.includes('copying them to'));
}

/** True where the account that runs the server cannot reach the project's folder. */
function copiesPrograms(): boolean {
  if (process.getuid?.() !== 0) return false;
  const { status } = spawnSync('/bin/ls', [packagedNative()], { uid: 65534, gid: 65534, stdio: 'ignore' });
  return status !== 0;
}

async function refusal(opening: Promise<OpenDatabase>): Promise<string> {
  const error = await opening.then(
    async (database) => {
      await database.stop();
      throw new Error('it opened');
    },
    (error: unknown) => error,
  );
  if (!(error instanceof UserError)) throw error;
  expect(error.message.endsWith(error.remedy)).toBe(true);
  expect(error.message).not.toContain('\n');
  return error.message;
}

describe('what a person can put right is said with place and remedy', () => {
  it('data of another version', async () => {
    await (await open()).stop();
    const version = join(folder, 'server', 'cluster', 'PG_VERSION');
    writeFileSync(version, '14\n');
    expect(await refusal(open())).toMatch(
      /cluster were made by PostgreSQL 14; this project brings 18, .*Move the folder away/,
    );
  });

  it('a data folder that is a file, or lies in one', async () => {
    const file = join(folder, 'file');
    writeFileSync(file, '');
    for (const path of [file, join(file, 'data')]) {
      expect(await refusal(open({ FENCEROW_DATA: path }))).toMatch(
        /data folder .*file.* cannot be written \(E.*set FENCEROW_DATA/,
      );
    }
  });

  it('a data folder without the right to write', async () => {
    const { status, stdout } = await withoutRights(folder);
    expect(stdout).toMatch(/^UserError The data folder .* cannot be written \(EACCES\).*FENCEROW_DATA/);
    expect(status).toBe(1);
  });

  it('passwords that were lost or exchanged', async () => {
    await (await open()).stop();
    const path = join(folder, 'passwords.json');
    const passwords = JSON.parse(readFileSync(path, 'utf8'));
    rmSync(path);
    expect(await refusal(open())).toMatch(/passwords of the database in .* are missing .*Put that file back/);
    writeFileSync(
      path,
      JSON.stringify({ own: { ...passwords.own, fencerow_admin: randomBytes(8).toString('hex') } }),
    );
    expect(await refusal(open())).toMatch(/refuses the passwords in .*passwords.json/);
    expect(ownServerStatus(folder)).toBeNull();
  });

  it('a port that was asked for and is taken, or is none', async () => {
    const taken = createServer();
    const port = await new Promise<number>((resolve) =>
      taken.listen(0, '127.0.0.1', () => resolve((taken.address() as { port: number }).port)),
    );
    expect(await refusal(open({ FENCEROW_DATABASE_PORT: String(port) }))).toMatch(
      `Port ${port} of 127.0.0.1`,
    );
    expect(await refusal(open({ FENCEROW_DATABASE_PORT: 'http' }))).toMatch('“http”, which is no port');
    await new Promise((resolve) => taken.close(resolve));
  });

  it('a server that does not start, with what its log says', async () => {
    await (await open()).stop();
    writeFileSync(join(folder, 'server', 'cluster', 'postgresql.conf'), 'no_such_setting = 1\n');
    expect(await refusal(open())).toMatch(/does not start on .*no_such_setting.*Read .*server.log/);
    expect(existsSync(join(folder, 'starting.lock'))).toBe(false);
  });
});

/**
 * Opens the database in a folder that may not be written. Root may write everywhere, so it first gives up that right
 * (`setpriv` of util-linux), and keeps the one to read its own project.
 */
async function withoutRights(folder: string): Promise<{ status: number | null; stdout: string }> {
  const closed = join(folder, 'closed');
  mkdirSync(closed);
  const isRoot = process.getuid?.() === 0;
  if (isRoot) chownSync(closed, 65534, 65534);
  chmodSync(closed, 0o555);
  const source = `
    const { openDatabase } = await import('${process.cwd()}/db/open.ts');
    await openDatabase().catch((error) => { console.log(error.name, error.message); process.exit(1); });`;
  const node = [process.execPath, '--import', 'tsx', '--input-type=module', '--eval', source];
  const limits = ['setpriv', '--bounding-set', '-dac_override,-dac_read_search'];
  const [program, ...words] = isRoot ? [...limits, ...node] : node;
  const child = spawn(program!, words, {
    env: { ...process.env, FENCEROW_DATA: join(closed, 'data'), DATABASE_URL: '', TMPDIR: tmpdir() },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let stdout = '';
  child.stdout!.on('data', (chunk) => {
    stdout += chunk;
  });
  const { code } = await ended(child);
  return { status: code, stdout };
}
