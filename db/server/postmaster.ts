import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { UserError } from '../errors';

/** A server that runs on a cluster. */
export interface Postmaster {
  pid: number;
  port: number;
}

/**
 * The server that runs on this cluster now, by its lock file; null where there is none. A lock file that a crash left
 * behind is taken away when its process is gone or is no PostgreSQL of this cluster.
 */
export function runningPostmaster(cluster: string): Postmaster | null {
  const path = join(cluster, 'postmaster.pid');
  const lines = read(path);
  if (lines === null) return null;
  const [pid, port] = [Number(lines[0]), Number(lines[3])];
  if (pid > 0 && isAlive(pid) && servesCluster(pid, cluster)) return { pid, port };
  rmSync(path, { force: true });
  return null;
}

/** Whether a process with this id runs (one that ended and that its parent has not yet noted does not). */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EPERM') return false;
  }
  try {
    return !readFileSync(`/proc/${pid}/stat`, 'utf8').includes(') Z ');
  } catch {
    return !existsSync('/proc/self/stat');
  }
}

function read(path: string): string[] | null {
  try {
    return readFileSync(path, 'utf8').split('\n');
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return null;
    throw new UserError(
      `The database files in ${path} cannot be read (${code}): they belong to another user.`,
      'Run the command as that user, or set FENCEROW_DATA to a folder of your own.',
      { cause: error },
    );
  }
}

/** Process ids are used again: a living process counts only when its command line names the cluster. */
function servesCluster(pid: number, cluster: string): boolean {
  const command = commandLine(pid);
  return command === null || command.includes(cluster);
}

function commandLine(pid: number): string | null {
  try {
    if (existsSync('/proc/self/cmdline')) return readFileSync(`/proc/${pid}/cmdline`, 'utf8');
    return execFileSync('ps', ['-o', 'command=', '-p', String(pid)], { encoding: 'utf8' });
  } catch {
    return null;
  }
}
