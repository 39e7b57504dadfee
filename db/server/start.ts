import { spawn, spawnSync } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';
import { totalmem } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { UserError } from '../errors';
import type { Account } from './account';
import type { Binaries } from './binaries';
import { lastLines } from './cluster';
import { plainEnvironment } from './environment';

/** Where and how a server is started. */
export interface Start {
  binaries: Binaries;
  account: Account | null;
  cluster: string;
  logFile: string;
  port: number;
  /** Further server settings, by name. */
  settings: Record<string, string>;
  /** Resolves true once a connection succeeds. */
  answers: () => Promise<boolean>;
}

const PATIENCE_MS = 120_000;

/**
 * Starts the server on 127.0.0.1 only (no Unix socket), in a session of its own: Ctrl-C at the terminal does not reach
 * it, so that whoever started it can end its own work first. Returns `port taken` when somebody else was quicker.
 * Errors: `UserError` with the log's last lines when it does not start.
 */
export async function startServer(start: Start): Promise<'ready' | 'port taken'> {
  const logged = openSync(start.logFile, 'a', 0o600);
  const offset = readFileSync(start.logFile).length;
  const settings = { ...SETTINGS, port: String(start.port), ...start.settings };
  const child = spawn(
    start.binaries.postgres,
    ['-D', start.cluster, ...Object.entries(settings).flatMap(([name, value]) => ['-c', `${name}=${value}`])],
    {
      ...start.account?.ids,
      cwd: '/',
      detached: true,
      env: plainEnvironment(),
      stdio: ['ignore', logged, logged],
    },
  );
  closeSync(logged);
  let ended = false;
  child.once('exit', () => {
    ended = true;
  });
  child.once('error', () => {
    ended = true;
  });
  child.unref();

  for (let waited = 0; waited < PATIENCE_MS; waited += 50) {
    if (ended) {
      const said = readFileSync(start.logFile).subarray(offset).toString('utf8');
      if (/could not bind|Address already in use/i.test(said)) return 'port taken';
      throw doesNotStart(start, lastLines(said));
    }
    if (await answered(start)) return 'ready';
    await sleep(50);
  }
  stopServer(start);
  throw doesNotStart(start, 'it did not answer for two minutes');
}

async function answered(start: Start): Promise<boolean> {
  try {
    return await start.answers();
  } catch (error) {
    stopServer(start);
    throw error;
  }
}

/** Stops a server cleanly: connections end, everything is on disk. Blocks until it has stopped (30 s at most). */
export function stopServer({
  binaries,
  account,
  cluster,
}: Pick<Start, 'binaries' | 'account' | 'cluster'>): void {
  const { status, stderr } = spawnSync(
    binaries.pgCtl,
    ['stop', '-D', cluster, '-m', 'fast', '-w', '-t', '30', '-s'],
    { ...account?.ids, cwd: '/', encoding: 'utf8', env: plainEnvironment() },
  );
  if (status === 0 || /no server running|does not exist/.test(stderr)) return;
  throw new UserError(
    `The database in ${cluster} did not stop: ${lastLines(stderr)}`,
    'Try again, or end its process.',
  );
}

const SETTINGS = {
  listen_addresses: '127.0.0.1',
  unix_socket_directories: '',
  max_connections: '100',
  max_wal_size: '2GB',
  log_min_messages: 'warning',
  jit: 'off',
  // An import of a million rows dirties more than the usual 128 MB: the pages would be written while it waits.
  shared_buffers: `${Math.round(Math.min(512, Math.max(128, totalmem() / 8_000_000)))}MB`,
  wal_buffers: '16MB',
};

function doesNotStart({ cluster, logFile }: Start, why: string): UserError {
  return new UserError(
    `The database server does not start on ${cluster}: ${why}`,
    `Read ${logFile}; where the files are damaged, move the folder away: then an empty database is made.`,
  );
}
