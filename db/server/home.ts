import { createHash } from 'node:crypto';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { UserError } from '../errors';
import { type Account, canEnter } from './account';

/**
 * The folder that holds the server's files: `server` inside the data folder or, where the server's account cannot
 * enter that (a project in a folder that only root may enter), one in a temporary place; the file `server-home` in
 * the data folder then says where. Only root or the user owns it; the cluster inside belongs to the account.
 */
export function serverHome(dataFolder: string, account: Account | null, log: (line: string) => void): string {
  const inside = join(dataFolder, 'server');
  const pointer = join(dataFolder, POINTER);
  if (existsSync(pointer)) {
    const elsewhere = expectedHome(dataFolder);
    if (isOurs(elsewhere) && canEnter(account, elsewhere)) return elsewhere;
    log(`The database in ${elsewhere} is gone; starting with an empty one.`);
  }
  makeFolder(inside);
  if (canEnter(account, inside)) return inside;

  const elsewhere = makeElsewhere(dataFolder, account);
  writeFileSync(pointer, `${elsewhere}\n`);
  log(
    `${dataFolder} cannot be entered by the account “${account?.name}” that runs the database, so its files are in ` +
      `${elsewhere}. Set FENCEROW_DATA to a folder that everybody may enter to keep them elsewhere.`,
  );
  return elsewhere;
}

/** Where the server's files are, by the pointer; they need not exist yet. */
export function expectedHome(dataFolder: string): string {
  const pointer = join(dataFolder, POINTER);
  return existsSync(pointer) ? readFileSync(pointer, 'utf8').trim() : join(dataFolder, 'server');
}

const POINTER = 'server-home';

/** Makes the data folder where it is missing. Errors: `UserError` where it cannot be written. */
export function makeFolder(folder: string): void {
  try {
    if (!existsSync(folder)) {
      mkdirSync(folder, { recursive: true });
      chmodSync(folder, 0o755);
    }
    const probe = join(folder, `.write-${process.pid}`);
    writeFileSync(probe, '', { flag: 'w' });
    rmSync(probe);
  } catch (error) {
    throw new UserError(
      `The data folder ${folder} cannot be written (${(error as NodeJS.ErrnoException).code}).`,
      'Give yourself the right to write there, or set FENCEROW_DATA to a folder of your own.',
      { cause: error },
    );
  }
}

function isOurs(folder: string): boolean {
  return existsSync(folder) && statSync(folder).isDirectory() && statSync(folder).uid === process.getuid?.();
}

function makeElsewhere(dataFolder: string, account: Account | null): string {
  const key = createHash('sha256').update(dataFolder).digest('hex').slice(0, 12);
  for (const parent of ['/var/tmp', tmpdir(), '/tmp']) {
    if (!existsSync(parent) || !canEnter(account, parent)) continue;
    const folder = mkdtempSync(join(parent, `fencerow-${key}-`));
    chmodSync(folder, 0o755);
    return folder;
  }
  throw new UserError(
    `The account “${account?.name}” that runs the database can enter neither ${dataFolder} nor a temporary folder.`,
    'Set FENCEROW_DATA to a folder that everybody may enter.',
  );
}
