import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { UserError } from '@/db/errors';
import { explain } from '@/lib/jobs/sheet-file';

export interface ReleaseFolder {
  /** Files whose sum was checked. */
  files: number;
  /** Files that are missing, or are not what the list of sums says. It grows while files are read. */
  faults: string[];
  /** The text of the one file whose name ends so; one without a sum is a fault. */
  textOf: (end: string) => string;
}

/**
 * Opens a folder into which the files of one release were downloaded, or their ZIP was unpacked, and checks their sums.
 *
 * @throws UserError where there is no such folder, or it holds no release or several
 */
export function openReleaseFolder(path: string): ReleaseFolder {
  const names = list(path);
  const read = (name: string) => readFileSync(join(path, name));
  const sums = new Map<string, string>();
  const faults: string[] = [];
  for (const line of read(one(names, 'SHA256SUMS', path))
    .toString('utf8')
    .split('\n')
    .filter(Boolean)) {
    const [, sum, name] = /^([0-9a-f]{64}) {2}(\S+)$/.exec(line) ?? [];
    if (!name) faults.push(`SHA256SUMS holds a line that is no sum: ${line.slice(0, 80)}`);
    else sums.set(name, sum!);
  }
  for (const [name, sum] of sums) {
    if (!names.includes(name)) faults.push(`${name} is missing.`);
    else if (sha256(read(name)) !== sum)
      faults.push(`${name} is not the file that was released: its SHA-256 is another one.`);
  }
  const textOf = (end: string) => {
    const name = one(names, end, path);
    if (!sums.has(name)) faults.push(`${name} is not in SHA256SUMS.`);
    return read(name).toString('utf8');
  };
  return { files: sums.size, faults, textOf };
}

function sha256(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function list(path: string): string[] {
  try {
    return readdirSync(path);
  } catch (error) {
    throw explain(error as NodeJS.ErrnoException, path);
  }
}

function one(names: readonly string[], end: string, path: string): string {
  const found = names.filter((name) => name === end || name.endsWith(`-${end}`));
  if (found.length === 1) return found[0]!;
  throw new UserError(
    found.length === 0
      ? `${path} holds no file whose name ends with ${end}.`
      : `${path} holds ${found.length} files whose names end with ${end}.`,
    'Name a folder with the files of one release: unpack its ZIP into an empty folder.',
  );
}
