/**
 * `npm run doses`: ED50 and resistance index of the populations that were sprayed at several doses. Private.
 */
import { writeFile } from 'node:fs/promises';
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import { readDoseSeries, voidDoseRuns, type WhichRuns } from '@/db/repositories/dose-series';
import { listLaboratories } from '@/db/repositories/laboratories';
import { fitDoses } from '@/lib/intake/confirmation/fit-doses';
import { explain } from '@/lib/jobs/sheet-file';
import { CAUTIONS } from '@/lib/vocabulary/cautions';
import { UsageError } from './support/command';
import { doseCsv } from './support/dose-csv';
import { doseLines } from './support/dose-words';
import { say, staffCommand } from './support/staff-command';

const USAGE =
  'npm run doses -- [--laboratory NAME] [--run NAME] [--csv FILE]   (doses are multiples of the label rate)';

const OPTIONS = {
  laboratory: { type: 'string' },
  run: { type: 'string' },
  csv: { type: 'string' },
} as const;

await staffCommand(USAGE, OPTIONS, async (db, { values, words }) => {
  if (words.length > 0) throw new UsageError(`Usage: ${USAGE}`);
  await checkLaboratory(db, values);
  const runs = await readDoseSeries(db, values);
  const voids = await voidDoseRuns(db, values);
  if (runs.length + voids.length === 0) return nothing(db, values);
  for (const { name, laboratory, why } of voids) say(`Run ${name} (${laboratory}) is void: ${why}.`);
  const fits = runs.map((run) => ({ run, fits: fitDoses(run.series, run.check, run.untreated) }));
  if (values.csv !== undefined) {
    await writeFile(values.csv, doseCsv(fits)).catch((error: NodeJS.ErrnoException) => {
      throw explain(error, values.csv!);
    });
    const count = fits.flatMap((one) => one.fits).length;
    return say(`${count} dose series were written to ${values.csv}: private, not for the public.`);
  }
  for (const { run, fits: all } of fits) for (const line of doseLines(run, all)) say(line);
  say('Doses are multiples of the label rate, in a greenhouse. This list is private.');
  for (const caution of CAUTIONS) say(caution);
});

async function checkLaboratory(db: StaffDatabase, { laboratory }: WhichRuns): Promise<void> {
  if (laboratory === undefined) return;
  const names = await listLaboratories(db);
  if (names.includes(laboratory)) return;
  throw new UserError(
    `There is no laboratory “${laboratory}”.`,
    `There are: ${names.join(', ') || 'none yet'}.`,
  );
}

async function nothing(db: StaffDatabase, { run, laboratory }: WhichRuns): Promise<void> {
  const none =
    'No population was sprayed at several doses in one run: sheets say so by columns for run and rate.';
  if (run === undefined) return say(none);
  const others = await readDoseSeries(db, { laboratory });
  const names = [...new Set(others.map((one) => one.run))];
  throw new UserError(
    `There is no dose series of a run “${run}”.`,
    names.length > 0 ? `Runs with dose series: ${names.slice(0, 20).join(', ')}.` : none,
  );
}
