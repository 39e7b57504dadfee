import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  chownSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { UserError } from '../errors';
import type { Account } from './account';
import type { Binaries } from './binaries';
import { plainEnvironment } from './environment';

/** The superuser of the project's own server; only the setting up uses it. */
export const ADMIN = 'fencerow_admin';

/**
 * Makes the cluster (a server's data) where it is missing, whole or not at all, and checks an existing one.
 * Passwords are checked by SCRAM, text is UTF-8 and sorts by code point, pages carry checksums.
 * Errors: `UserError` when it was made by another major version or belongs to another user, or cannot be made.
 */
export function ensureCluster(
  cluster: string,
  { binaries, account, password }: { binaries: Binaries; account: Account | null; password: string },
): void {
  if (existsSync(cluster)) {
    checkCluster(cluster, binaries);
    return;
  }
  const fresh = `${cluster}.new`;
  const passwordFile = `${cluster}.password`;
  rmSync(fresh, { recursive: true, force: true });
  mkdirSync(fresh, { mode: 0o700 });
  chmodSync(fresh, 0o700);
  writeFileSync(passwordFile, password, { mode: 0o600 });
  if (account !== null) {
    for (const path of [fresh, passwordFile]) chownSync(path, account.ids.uid, account.ids.gid);
  }
  try {
    const { status, stderr, error } = spawnSync(
      binaries.initdb,
      [`--pgdata=${fresh}`, `--username=${ADMIN}`, `--pwfile=${passwordFile}`, ...INITDB],
      {
        ...account?.ids,
        cwd: '/',
        encoding: 'utf8',
        env: plainEnvironment(),
      },
    );
    if (status !== 0) {
      throw new UserError(
        `The database could not be made in ${cluster}: ${error?.message ?? lastLines(stderr)}`,
        'Check that the disk has room and that the folder can be written, or set FENCEROW_DATA to another folder.',
      );
    }
    renameSync(fresh, cluster);
  } finally {
    rmSync(passwordFile, { force: true });
    rmSync(fresh, { recursive: true, force: true });
  }
}

/** The last lines of a program's output or log, on one line. */
export function lastLines(text: string, count = 6): string {
  return text.trim().split('\n').slice(-count).join(' · ');
}

const INITDB = [
  '--auth=scram-sha-256',
  '--encoding=UTF8',
  '--locale=C',
  '--data-checksums',
  '--no-instructions',
  '--set=timezone=UTC',
  '--set=log_timezone=UTC',
];

function checkCluster(cluster: string, { major }: Binaries): void {
  const owner = statSync(cluster).uid;
  const self = process.getuid?.() ?? owner;
  if (self !== 0 && self !== owner) {
    throw new UserError(
      `The database files in ${cluster} belong to another user (id ${owner}).`,
      'Run the command as that user, or set FENCEROW_DATA to a folder of your own.',
    );
  }
  const version = join(cluster, 'PG_VERSION');
  const made = existsSync(version) ? readFileSync(version, 'utf8').trim() : 'an unknown version';
  if (made === String(major)) return;
  throw new UserError(
    `The database files in ${cluster} were made by PostgreSQL ${made}; this project brings ${major}, which cannot read them.`,
    `Move the folder away (then an empty database is made), or run PostgreSQL ${made} on it and set DATABASE_URL to that.`,
  );
}
