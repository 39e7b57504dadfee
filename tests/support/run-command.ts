import { spawn } from 'node:child_process';
import { join } from 'node:path';
import type { TestDatabase } from './database';

export interface Run {
  code: number | null;
  out: string;
  err: string;
}

/** Runs one of the project's commands as a person would, on a test's own database. */
export async function runCommand(
  script: string,
  words: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<Run> {
  const root = join(import.meta.dirname, '../..');
  const child = spawn(process.execPath, ['--import', 'tsx', join('scripts', script), ...words], {
    cwd: root,
    env: { ...process.env, ...env },
  });
  const run: Run = { code: null, out: '', err: '' };
  child.stdout.on('data', (text) => {
    run.out += String(text);
  });
  child.stderr.on('data', (text) => {
    run.err += String(text);
  });
  run.code = await new Promise((resolve, reject) => {
    child.once('error', reject).once('close', resolve);
  });
  return run;
}

/** Environment that leads a command to a test's database. */
export function databaseEnvironment({ ownerUrl, staffUrl, publicUrl }: TestDatabase): Record<string, string> {
  return { DATABASE_URL: ownerUrl, FENCEROW_STAFF_URL: staffUrl, FENCEROW_PUBLIC_URL: publicUrl };
}
