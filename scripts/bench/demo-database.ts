import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { closeClient, publicClient, type StaffDatabase, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { runDemoStages } from '../support/demo-stages';
import type { Steps } from '../support/steps';

/** Runs the demonstration's stages (default size, seed 1) in a database and a folder of their own that are removed after. */
export async function withDemoDatabase(
  steps: Steps,
  work: (staff: StaffDatabase, publicUrl: string) => Promise<void> = async () => {},
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'fencerow-bench-'));
  const env = { ...process.env, FENCEROW_DATA: join(folder, 'data'), DATABASE_URL: undefined };
  const database = await steps.run('database', () => openDatabase({ env }));
  const staff = staffClient(database.staffUrl);
  const published = publicClient(database.publicUrl);
  try {
    const sheets = join(folder, 'sheets');
    await runDemoStages({ size: 'default', seed: 1, folder: sheets, staff, published, steps });
    await work(staff, database.publicUrl);
  } finally {
    await closeClient(staff);
    await closeClient(published);
    await database.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}
