import { linkSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { UserError } from '../errors';
import { isAlive } from './postmaster';

const PATIENCE_MS = 180_000;

/**
 * Runs `work` while no other process prepares the same data folder; waits for its turn. A lock whose process died
 * is taken over. Errors: `UserError` after three minutes.
 */
export async function withLock<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const path = join(folder, 'starting.lock');
  for (let waited = 0; !take(path); waited += 50) {
    if (waited >= PATIENCE_MS) {
      throw new UserError(
        `Another command (process ${holder(path)}) has been preparing the database in ${folder} for three minutes.`,
        'Wait for it or end it, then try again.',
      );
    }
    await sleep(50);
  }
  try {
    return await work();
  } finally {
    rmSync(path, { force: true });
  }
}

/** Linking a finished file into place is atomic, so a lock always names its holder. */
function take(path: string): boolean {
  const mine = `${path}.${process.pid}.${process.hrtime.bigint()}`;
  writeFileSync(mine, String(process.pid));
  try {
    linkSync(mine, path);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    const pid = holder(path);
    if (pid !== null && !isAlive(pid)) rmSync(path, { force: true });
    return false;
  } finally {
    rmSync(mine, { force: true });
  }
}

function holder(path: string): number | null {
  try {
    return Number(readFileSync(path, 'utf8')) || null;
  } catch {
    return null;
  }
}
