/**
 * `npm run reproduce -- FOLDER`: takes the downloaded files of a release, without any database, and computes each public
 * finding anew from its cells. Ends with 1 where a file is not the one that was released, or a finding is another one.
 */
import { UserError } from '@/db/errors';
import { publicFindings } from '@/lib/release/public-findings';
import { DamagedRelease, type ReadRelease, readRelease } from '@/lib/release/read-release';
import { runCommand, UsageError } from './support/command';
import { findingDifferences } from './support/differences';
import { readOptions } from './support/options';
import { openReleaseFolder, type ReleaseFolder } from './support/release-folder';

const USAGE = 'npm run reproduce -- FOLDER   (the files of one release, or its ZIP unpacked)';

await runCommand(async () => {
  const { words } = readOptions(USAGE, {});
  if (words.length !== 1) throw new UsageError(`Usage: ${USAGE}`);
  const folder = openReleaseFolder(words[0]!);
  const release = read(folder);
  const { cube, region, tests, speciesNames, findings } = release;
  const derived = publicFindings(cube, {
    region,
    ...tests,
    speciesName: (code) => speciesNames[code] ?? code,
  });
  const differences = [...folder.faults, ...findingDifferences(findings, derived)];
  for (const line of [heading(release), ...differences]) say(line);
  const n = differences.length;
  say(n === 0 ? same(folder, release) : `Not the same: ${n} ${n === 1 ? 'difference' : 'differences'}.`);
  return n === 0 ? 0 : 1;
});

/** A release that contradicts itself cannot be computed from; what is wrong with its sums is told with it. */
function read(folder: ReleaseFolder): ReadRelease {
  try {
    return readRelease(folder.textOf);
  } catch (error) {
    if (!(error instanceof DamagedRelease)) throw error;
    throw new UserError(
      [...folder.faults, error.message].join('\n'),
      'Download the files of the release again.',
    );
  }
}

function heading({ number, date, programme }: ReadRelease): string {
  return `Release ${number} of ${date}, ${programme}:`;
}

function same({ files }: ReleaseFolder, { findings, tests }: ReadRelease): string {
  const count = (n: number) => n.toLocaleString('en');
  return `${files} files are those that were released. ${count(findings.length)} findings follow from its cells, digit for digit (seed ${tests.seed}, ${count(tests.permutations)} orders).`;
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}
