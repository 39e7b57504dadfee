/**
 * `npm run staff`: serves the staff side, in a process of its own: it alone holds the address of the staff's role.
 * Builds the site where needed, and serves until it is interrupted.
 */
import { dataFolderOf, openDatabase } from '@/db/open';
import { startServer } from './serve';
import { runCommand } from './support/command';
import { interrupted } from './support/interrupted';
import { readNumber, readOptions } from './support/options';
import { STAFF_PORT, staffSettings } from './support/staff-settings';

const USAGE = 'npm run staff -- [--port N] [--host ADDRESS]';

await runCommand(async () => {
  const { values } = readOptions(USAGE, { port: { type: 'string' }, host: { type: 'string' } });
  const port = readNumber(values.port ?? String(STAFF_PORT), '--port', USAGE);
  const say = (text: string) => process.stderr.write(`  ${text} …\n`);
  const given = process.env.FENCEROW_STAFF_URL;
  const database = given ? null : await openDatabase({ log: say });
  try {
    const staff = staffSettings(given ?? database!.staffUrl, dataFolderOf(process.env), process.env);
    const server = await startServer({ port, host: values.host, staff, say });
    process.stdout.write(`Fencerow's staff side is at ${server.url}/staff\n`);
    await interrupted();
    await server.close();
  } finally {
    await database?.stop();
  }
  return 0;
});
