import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';

/** The system account that the server runs as; `ids` go to `spawn`. */
export interface Account {
  name: string;
  ids: { uid: number; gid: number };
}

/**
 * PostgreSQL refuses to run as root. So root runs it as whoever owns the data already, else as the account `postgres`,
 * else as an account `fencerow` that is made now, else as `nobody`. Null: not root, so the server runs as ourselves.
 */
export function serverAccount(cluster: string, log: (line: string) => void): Account | null {
  if (process.getuid?.() !== 0) return null;
  const owner = ownerOf(cluster);
  if (owner !== null) return owner;
  const known = account('postgres') ?? account('fencerow');
  if (known !== null) return known;
  spawnSync('useradd', [
    '--system',
    '--user-group',
    '--no-create-home',
    '--shell',
    '/usr/sbin/nologin',
    'fencerow',
  ]);
  const made = account('fencerow');
  if (made !== null) {
    log('PostgreSQL does not run as root: made the system account “fencerow” for it.');
    return made;
  }
  log('PostgreSQL does not run as root: using the account “nobody” for it.');
  return account('nobody') ?? { name: 'nobody', ids: { uid: 65534, gid: 65534 } };
}

/** Whether the account may enter a folder, tried out (modes, access lists and mounts all count). */
export function canEnter(account: Account | null, folder: string): boolean {
  if (account === null) return true;
  const { status } = spawnSync('/bin/sh', ['-c', 'cd -- "$1"', 'sh', folder], { ...account.ids, cwd: '/' });
  return status === 0;
}

function ownerOf(cluster: string): Account | null {
  if (!existsSync(cluster)) return null;
  const { uid, gid } = statSync(cluster);
  return uid === 0 ? null : { name: `user ${uid}`, ids: { uid, gid } };
}

function account(name: string): Account | null {
  const [uid, gid] = ['-u', '-g'].map((flag) => {
    const { status, stdout } = spawnSync('id', [flag, name], { encoding: 'utf8' });
    return status === 0 ? Number(stdout) : Number.NaN;
  });
  return Number.isInteger(uid) && Number.isInteger(gid) ? { name, ids: { uid: uid!, gid: gid! } } : null;
}
