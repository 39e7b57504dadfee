import { userInfo } from 'node:os';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { runCommand } from './command';
import { type Options, type Read, readOptions } from './options';

/** Runs a command of the staff's on the open database, once its options are read. */
export async function staffCommand<T extends Options>(
  usage: string,
  options: T,
  work: (db: StaffDatabase, read: Read<T>) => Promise<void>,
): Promise<never> {
  return runCommand(async () => {
    const read = readOptions(usage, options);
    const database = await openDatabase({ log: (line) => process.stderr.write(`${line}\n`) });
    const db = staffClient(database.staffUrl);
    try {
      await work(db, read);
      return 0;
    } finally {
      await closeClient(db);
      await database.stop();
    }
  });
}

/** Who acts: as said with --by, else the account's name. */
export function actor(by: string | undefined): string {
  return by?.trim() || userInfo().username;
}

/** Prints a line. */
export function say(line: string): void {
  process.stdout.write(`${line}\n`);
}
