import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';

const NEEDED = [
  { package: 'chromium', for: 'the browser tests', present: () => existsSync('/usr/bin/chromium') },
  { package: 'postgresql', for: 'the tests against an outside database server', present: hasPostgres },
];

/**
 * Installs Debian's packages that the tests need and the machine lacks. Where it may not (no root, no apt), it says
 * which command does; the suites that need them then fail with the same words.
 */
export function ensureSystemPackages(): void {
  const missing = NEEDED.filter((need) => !need.present());
  if (missing.length === 0) return;
  const names = missing.map((need) => need.package);
  const reasons = missing.map((need) => `${need.package} (for ${need.for})`).join(' and ');
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
  const still = missing.filter((need) => !need.present()).map((need) => need.package);
  if (still.length > 0)
    process.stdout.write(`Could not install ${still.join(', ')}: the suites that need them will fail.\n`);
}

function hasPostgres(): boolean {
  const versions = '/usr/lib/postgresql';
  return (
    existsSync(versions) && readdirSync(versions).some((v) => existsSync(join(versions, v, 'bin', 'initdb')))
  );
}
