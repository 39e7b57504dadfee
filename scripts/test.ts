/**
 * `npm test`: the whole suite, in the order in which a failure is cheapest to find. Sets up what the machine lacks
 * (Chromium for the browser tests, Debian's PostgreSQL as the outside server) and fails, with the reason, where it
 * cannot: a skipped suite is a failure.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureSystemPackages } from './support/system-packages';

const STAGES: { name: string; command: string[] }[] = [
  { name: 'route types', command: ['next', 'typegen'] },
  { name: 'types', command: ['tsc', '--noEmit'] },
  { name: 'format and lint', command: ['biome', 'check', '.'] },
  {
    name: 'imports point downward',
    command: ['depcruise', '--config', '.dependency-cruiser.cjs', 'app', 'lib', 'db', 'scripts', 'tests'],
  },
];

const failed: string[] = [];
ensureSystemPackages();
for (const { name, command } of STAGES) {
  process.stdout.write(`\n${name}\n`);
  if (!run(command)) failed.push(name);
}
const counts = runUnitTests();
if (counts.failed > 0 || !counts.ran) failed.push('tests');
process.stdout.write(failed.length > 0 ? `\nFailed: ${failed.join(', ')}\n` : '\nEverything passed.\n');
process.stdout.write(
  `${counts.passed} passed, ${counts.failed + failed.filter((name) => name !== 'tests').length} failed\n`,
);
process.exit(failed.length > 0 ? 1 : 0);

function run([tool, ...args]: string[]): boolean {
  const { status } = spawnSync(join('node_modules', '.bin', tool!), args, {
    stdio: 'inherit',
    env: { ...process.env, NEXT_TELEMETRY_DISABLED: '1' },
  });
  return status === 0;
}

function runUnitTests(): { passed: number; failed: number; ran: boolean } {
  process.stdout.write('\nunits, database and browser\n');
  const folder = mkdtempSync(join(tmpdir(), 'fencerow-test-'));
  const report = join(folder, 'report.json');
  const passed = run([
    'vitest',
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ]);
  try {
    if (!existsSync(report)) return { passed: 0, failed: 1, ran: false };
    const { numPassedTests, numTotalTests } = JSON.parse(readFileSync(report, 'utf8')) as {
      numPassedTests: number;
      numTotalTests: number;
    };
    // A file that fails to load has no tests of its own to count, and a test that did not run has not passed.
    const missing = numTotalTests - numPassedTests;
    return {
      passed: numPassedTests,
      failed: passed ? missing : Math.max(1, missing),
      ran: numTotalTests > 0,
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
