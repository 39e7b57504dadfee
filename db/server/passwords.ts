import { chmodSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolder } from './home';

/** Passwords by server (`own` or `host:port`) and role. */
type Kept = Record<string, Record<string, string>>;

/** The passwords that this data folder keeps for a server: made once, readable by their owner only. */
export function keptPasswords(dataFolder: string, server: string): Record<string, string> {
  return read(dataFolder)[server] ?? {};
}

/** Keeps further passwords for a server. */
export function keepPasswords(dataFolder: string, server: string, more: Record<string, string>): void {
  makeFolder(dataFolder);
  const kept = read(dataFolder);
  kept[server] = { ...kept[server], ...more };
  const path = fileIn(dataFolder);
  const next = `${path}.${process.pid}`;
  writeFileSync(next, `${JSON.stringify(kept, null, 2)}\n`, { mode: 0o600 });
  chmodSync(next, 0o600);
  renameSync(next, path);
}

const fileIn = (dataFolder: string) => join(dataFolder, 'passwords.json');

function read(dataFolder: string): Kept {
  try {
    return JSON.parse(readFileSync(fileIn(dataFolder), 'utf8')) as Kept;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return {};
    throw error;
  }
}
