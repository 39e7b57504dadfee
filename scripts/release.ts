/**
 * `npm run release`: cells → gate → audit → findings → a numbered release that never changes.
 */
import { closeClient, staffClient } from '@/db/clients';
import { openDatabase } from '@/db/open';
import { getProgramme } from '@/db/repositories/programme';
import { runCommand, UsageError } from './support/command';
import { type MadeRelease, makeRelease } from './support/make-release';
import { readDay, readOptions, today } from './support/options';

const USAGE = 'npm run release -- [--note TEXT] [--date DAY] [--dry-run]';

const STAGES = {
  cells: 'counting the cells of every public table',
  gate: 'withholding small counts',
  audit: 'looking for withheld counts that could still be worked out',
  findings: 'computing findings from the released cells',
};

await runCommand(async () => {
  const { values, words } = readOptions(USAGE, {
    note: { type: 'string' },
    date: { type: 'string' },
    'dry-run': { type: 'boolean' },
  });
  if (words.length > 0) throw new UsageError(`Usage: ${USAGE}`);
  const log = (line: string) => process.stderr.write(`${line}\n`);
  const database = await openDatabase({ log });
  const staff = staffClient(database.staffUrl);
  try {
    const programme = await getProgramme(staff);
    if (!programme)
      throw new UsageError('No programme is set up here: import a sheet first (npm run import -- SHEET).');
    const made = await makeRelease(staff, {
      programme,
      date: readDay(values.date, 'date', today),
      note: values.note ?? '',
      dryRun: values['dry-run'] ?? false,
      onStage: (stage) => log(`  ${STAGES[stage]} …`),
    });
    process.stdout.write(summary(made));
    return 0;
  } finally {
    await closeClient(staff);
    await database.stop();
  }
});

function summary({ number, draft, audit, figures }: MadeRelease): string {
  const primary = figures.reduce((sum, pair) => sum + pair.primary, 0);
  const complementary = figures.reduce((sum, pair) => sum + pair.complementary, 0);
  return `${number === null ? 'Dry run, nothing stored' : `Release ${number} is published`}: ${draft.head.pairs.length} species × group pairs, ${
    draft.cube.cells.length
  } cells.
Withheld: ${audit.withheldCells} cells, ${primary} by the primary rule and ${complementary} so that these cannot be worked out.
Audit: clean (${audit.programs} linear programs).
Findings: ${draft.findings.length}.
`;
}
