/**
 * `npm run worker`: works off the queue of long work (analyses, drafts of releases, imports) until it is interrupted.
 * Several may run, on other machines too.
 */
import { openDatabase } from '@/db/open';
import { startWorker } from '@/lib/jobs/start-worker';
import { runCommand } from './support/command';
import { interrupted } from './support/interrupted';
import { readOptions } from './support/options';

const USAGE = 'npm run worker';

await runCommand(async () => {
  readOptions(USAGE, {});
  const say = (line: string) => process.stderr.write(`  ${line}\n`);
  const given = process.env.FENCEROW_STAFF_URL;
  const database = given ? null : await openDatabase({ log: say });
  const worker = await startWorker({ staffUrl: given ?? database!.staffUrl, say });
  process.stdout.write('The worker waits for work (Ctrl+C stops it).\n');
  try {
    await interrupted();
  } finally {
    await worker.stop();
    await database?.stop();
  }
  return 0;
});
