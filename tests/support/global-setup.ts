import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { expectedHome } from '@/db/server/home';
import { stopOwnServer } from '@/db/server/own';

declare module 'vitest' {
  interface ProvidedContext {
    /** Data folder of the database server that all suites share; the first that needs it starts it. */
    databaseFolder: string;
  }
}

/** Gives all suites one database server, which starts when it is first needed and is removed at the end. */
export default function setup(project: TestProject): () => Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'fencerow-tests-'));
  chmodSync(folder, 0o755); // root runs the server as another user, who must get in
  project.provide('databaseFolder', folder);
  return async () => {
    await stopOwnServer(folder, () => {});
    rmSync(expectedHome(folder), { recursive: true, force: true });
    rmSync(folder, { recursive: true, force: true });
  };
}
