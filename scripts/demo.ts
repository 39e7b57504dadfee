/**
 * `npm run demo`: from nothing to a public map of the simulated programme on this machine. Ends with the address to
 * open and serves until it is interrupted.
 */
import { join } from 'node:path';
import { closeClient, publicClient, staffClient } from '@/db/clients';
import { dataFolderOf, openDatabase } from '@/db/open';
import { startWorker } from '@/lib/jobs/start-worker';
import { SIZES, type Size } from './scenario/sizes';
import { checkPort, startServer } from './serve';
import { ensureBuild } from './serve/ensure-build';
import { runCommand, UsageError } from './support/command';
import { demoAccounts, signInWords } from './support/demo-accounts';
import { runDemoStages } from './support/demo-stages';
import { interrupted } from './support/interrupted';
import { readOptions } from './support/options';
import { startStaffProcess } from './support/staff-process';
import { STAFF_PORT } from './support/staff-settings';
import { startSteps } from './support/steps';

const USAGE = `npm run demo -- [--size ${SIZES.filter((size) => size !== 'national').join('|')}] [--seed N] [--port N] [--staff-port N]`;

await runCommand(async () => {
  const { values } = readOptions(USAGE, {
    size: { type: 'string' },
    seed: { type: 'string' },
    port: { type: 'string' },
    'staff-port': { type: 'string' },
  });
  const size = SIZES.find((known) => known === (values.size ?? 'default'));
  const [seed, port] = [Number(values.seed ?? 1), Number(values.port ?? process.env.PORT ?? 3000)];
  const staffPort = Number(values['staff-port'] ?? STAFF_PORT);
  if (!size || size === 'national' || ![seed, port, staffPort].every(Number.isSafeInteger)) {
    throw new UsageError(`Usage: ${USAGE}`);
  }
  await demonstrate(size, seed, port, staffPort);
  return 0;
});

async function demonstrate(size: Size, seed: number, port: number, staffPort: number): Promise<void> {
  const log = (line: string) => process.stderr.write(`  ${line}\n`);
  log('Fencerow demonstration: everything but the county outlines is simulated.');
  await checkPort(port, '127.0.0.1');
  await checkPort(staffPort, '127.0.0.1');
  const steps = startSteps();
  // The build needs no database, so the two go on side by side.
  const build = steps.run('site', () => ensureBuild(process.cwd()));
  build.catch(() => {});
  const database = await steps.run('database', () => openDatabase({ log }));
  try {
    const staff = staffClient(database.staffUrl);
    const published = publicClient(database.publicUrl);
    const folder = join(dataFolderOf(process.env), 'demo', `${size}-${seed}`);
    await runDemoStages({ size, seed, folder, staff, published, steps });
    const accounts = await steps.run('staff accounts (simulated)', () => demoAccounts(staff));
    await closeClient(staff);
    await closeClient(published);
    await build;
    const server = await startServer({ port, publicUrl: database.publicUrl });
    const mail = join(dataFolderOf(process.env), 'demo', 'mail');
    const side = await startStaffProcess({
      port: staffPort,
      staffUrl: database.staffUrl,
      publicSite: server.url,
      mail: `file:${mail}`,
    });
    const worker = await startWorker({ staffUrl: database.staffUrl, say: log });
    log(`Simulated sheets and what was planted in them: ${folder}`);
    log(`Mail that the staff side sends: ${mail}`);
    process.stdout.write(`\nOpen ${server.url} (Ctrl+C stops it)\n${signInWords(side.url, accounts)}`);
    await interrupted();
    log('Stopping …');
    await worker.stop();
    await side.close();
    await server.close();
  } finally {
    await database.stop();
  }
}
