import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { closeClient, publicClient, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import type { Benchmark } from '../bench';
import { runDemoStages } from '../support/demo-stages';
import { startSteps } from '../support/steps';

/** Time and memory of each stage on the demonstration, in a database and a folder of its own that are removed after. */
export const demo: Benchmark = {
  about: 'Each stage on the demonstration (default size, seed 1): time, and memory of the process at its end',
  async run() {
    const folder = mkdtempSync(join(tmpdir(), 'fencerow-bench-'));
    const steps = startSteps();
    const env = { ...process.env, FENCEROW_DATA: join(folder, 'data'), DATABASE_URL: undefined };
    const database = await steps.run('database', () => openDatabase({ env }));
    const staff = staffClient(database.staffUrl);
    const published = publicClient(database.publicUrl);
    try {
      await runDemoStages({
        size: 'default',
        seed: 1,
        folder: join(folder, 'sheets'),
        staff,
        published,
        steps,
      });
      return [...steps.done];
    } finally {
      await closeClient(staff);
      await closeClient(published);
      await database.stop();
      rmSync(folder, { recursive: true, force: true });
    }
  },
};
