import { UserError } from '@/db/errors';
import { SheetError } from '@/lib/intake/sheet-error';

/**
 * Runs a command's work and ends the process: 0 when it succeeds, the number it returns, or 1 with the message of an
 * error that a person can put right. Anything else is a defect and shows its stack.
 */
export async function runCommand(work: () => Promise<number | undefined>): Promise<never> {
  // Whoever reads the output may have had enough, as `head`; the work goes on to its end.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
  try {
    process.exit((await work()) ?? 0);
  } catch (error) {
    if (error instanceof HelpWanted) {
      process.stdout.write(`Usage: ${error.message}\n`);
      process.exit(0);
    }
    const known = error instanceof UserError || error instanceof UsageError || error instanceof SheetError;
    process.stderr.write(`${known ? error.message : ((error as Error).stack ?? error)}\n`);
    process.exit(1);
  }
}

/** A command was called with words that it does not take; the message says which it does. */
export class UsageError extends Error {
  override readonly name = 'UsageError';
}

/** A person asked which words a command takes; the message says so. */
export class HelpWanted extends Error {
  override readonly name = 'HelpWanted';
}
