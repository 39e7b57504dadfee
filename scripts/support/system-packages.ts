import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

const NEEDED = [
  { packages: ['chromium'], for: 'the browser tests', present: () => existsSync('/usr/bin/chromium') },
  { packages: ['postgresql'], for: 'the tests against an outside database server', present: hasPostgres },
  {
    packages: ['python3-geopandas', 'python3-matplotlib'],
    for: 'the example in Python',
    present: () => succeeds('/usr/bin/python3', ['-c', 'import geopandas, matplotlib']),
  },
  {
    packages: ['r-cran-sf', 'r-cran-spdep', 'r-cran-jsonlite'],
    for: 'the example in R',
    present: () => succeeds('Rscript', ['-e', 'library(sf); library(spdep); library(jsonlite)']),
  },
];

/**
 * Installs Debian's packages that the tests need and the machine lacks. Where it may not (no root, no apt), it says
 * which command does; the suites that need them then fail with the same words.
 */
export function ensureSystemPackages(): void {
  const missing = NEEDED.filter((need) => !need.present());
  if (missing.length === 0) return;
  const names = missing.flatMap((need) => need.packages);
  const reasons = missing.map((need) => `${need.packages.join(' ')} (for ${need.for})`).join(' and ');
  const isRoot = process.getuid?.() === 0;
  if (!isRoot || !existsSync('/usr/bin/apt-get')) {
    process.stdout.write(`Missing: ${reasons}. Install with: sudo apt-get install ${names.join(' ')}\n`);
    return;
  }
  process.stdout.write(`Installing ${reasons}\n`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
  spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...names], {
    stdio: 'inherit',
    env,
  });
  const still = missing.filter((need) => !need.present()).flatMap((need) => need.packages);
  if (still.length > 0)
    process.stdout.write(`Could not install ${still.join(', ')}: the suites that need them will fail.\n`);
}

function hasPostgres(): boolean {
  const versions = '/usr/lib/postgresql';
  return (
    existsSync(versions) && readdirSync(versions).some((v) => existsSync(join(versions, v, 'bin', 'initdb')))
  );
}

function succeeds(command: string, words: readonly string[]): boolean {
  return spawnSync(command, words, { stdio: 'ignore' }).status === 0;
}
