import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { UserError } from '@/db/errors';
import { withLock } from '@/db/server/lock';
import { compressStatic } from './static-files';

const SOURCES = ['app', 'lib', 'db', 'public', 'next.config.ts', 'package-lock.json', 'tsconfig.json'];

/**
 * Builds the site into `.next` unless a build of these very sources is there, and compresses its static files once.
 * No database is needed. One command builds at a time; the others wait. Returns true where it had to build.
 *
 * @throws UserError with the build's last words where it fails
 */
export async function ensureBuild(root: string, say: (text: string) => void = () => {}): Promise<boolean> {
  // The build empties its own folder, so the lock stands outside it.
  const place = join(root, 'node_modules', '.cache', 'fencerow-site');
  mkdirSync(place, { recursive: true });
  return withLock(place, () => buildWhereNeeded(root, say));
}

async function buildWhereNeeded(root: string, say: (text: string) => void): Promise<boolean> {
  const stamp = join(root, '.next', 'built-from');
  const sources = fingerprint(root);
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === sources) return false;
  say('building the site');
  await runBuild(root);
  say('compressing its static files');
  await compressStatic(root);
  writeFileSync(stamp, sources);
  return true;
}

function fingerprint(root: string): string {
  const hash = createHash('sha256');
  for (const path of SOURCES.flatMap((source) => filesUnder(join(root, source)))) {
    hash.update(relative(root, path)).update('\0').update(readFileSync(path)).update('\0');
  }
  return hash.digest('hex');
}

function filesUnder(path: string): string[] {
  if (!existsSync(path)) return [];
  if (statSync(path).isFile()) return [path];
  const entries = readdirSync(path, { withFileTypes: true, recursive: true, encoding: 'utf8' });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

async function runBuild(root: string): Promise<void> {
  const tool = join(root, 'node_modules', 'next', 'dist', 'bin', 'next');
  const child = spawn(process.execPath, [tool, 'build'], {
    cwd: root,
    env: { ...process.env, NODE_ENV: 'production', NEXT_TELEMETRY_DISABLED: '1', NODE_OPTIONS: '' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (text: string) => {
      output = (output + text).slice(-4000);
    });
  }
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('error', reject).once('close', resolve);
  });
  if (code !== 0)
    throw new UserError(`The site could not be built:\n${output}`, 'Mend what it names and start again.');
}
