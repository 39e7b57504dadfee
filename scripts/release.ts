/**
 * `npm run release`: cells → gate → audit → findings → a numbered release that never changes.
 */
import type { StaffDatabase } from '@/db/clients';
import { chooseLicence, knownLicence } from '@/db/repositories/programme';
import { LICENCES } from '@/lib/release/files/licence';
import { UsageError } from './support/command';
import { type MadeRelease, makeRelease } from './support/make-release';
import { readDay, today } from './support/options';
import { programmeOf, say, staffCommand } from './support/staff-command';

const USAGE = `npm run release -- [--note TEXT] [--date DAY] [--licence ID] [--dry-run]
  --licence is kept for later releases (${LICENCES.map(({ id }) => id).join(', ')}; none takes it back)`;

const STAGES = {
  cells: 'counting the cells of every public table',
  gate: 'withholding small counts',
  audit: 'looking for withheld counts that could still be worked out',
  findings: 'computing findings from the released cells',
};

await staffCommand(
  USAGE,
  {
    note: { type: 'string' },
    date: { type: 'string' },
    licence: { type: 'string' },
    'dry-run': { type: 'boolean' },
  },
  async (staff, { values, words }) => {
    if (words.length > 0) throw new UsageError(`Usage: ${USAGE}`);
    const isDry = values['dry-run'] ?? false;
    const made = await makeRelease(staff, {
      programme: await licensed(staff, values.licence, isDry),
      date: readDay(values.date, 'date', today),
      note: values.note ?? '',
      dryRun: isDry,
      onStage: (stage) => process.stderr.write(`  ${STAGES[stage]} …\n`),
    });
    say(summary(made));
    for (const line of warnings(made)) say(line);
  },
);

/** The programme, with the licence that is chosen here. A dry run only looks whether it could be chosen. */
async function licensed(staff: StaffDatabase, chosen: string | undefined, isDry: boolean) {
  const programme = await programmeOf(staff);
  if (chosen === undefined) return programme;
  const licence = knownLicence(chosen === 'none' ? null : chosen);
  if (!isDry) await chooseLicence(staff, licence);
  return { ...programme, licence };
}

function summary({ number, draft, audit, figures }: MadeRelease): string {
  const primary = figures.reduce((sum, pair) => sum + pair.primary, 0);
  const complementary = figures.reduce((sum, pair) => sum + pair.complementary, 0);
  return `${number === null ? 'Dry run, nothing stored' : `Release ${number} is published`}: ${draft.head.pairs.length} species × group pairs, ${
    draft.cube.cells.length
  } cells.
Withheld: ${audit.withheldCells} cells, ${primary} by the primary rule and ${complementary} so that these cannot be worked out.
Audit: clean (${audit.programs} linear programs).
Findings: ${draft.findings.length}.`;
}

function warnings({ held, unreported }: MadeRelease): string[] {
  const waiting =
    held > 0
      ? [`Not in it: ${held} results whose first find in the state awaits its second run (npm run finds).`]
      : [];
  const untold = unreported.map(
    ({ season, populations }) =>
      `Season ${season}: ${populations} samples are not yet reported to their senders (npm run reported).`,
  );
  return [...waiting, ...untold];
}
