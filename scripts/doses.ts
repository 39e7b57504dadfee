/**
 * `npm run doses`: ED50 and resistance index of the populations that were sprayed at several doses. Private.
 */
import { writeFile } from 'node:fs/promises';
import { stringify } from 'csv-stringify/sync';
import { type RunSeries, readDoseSeries } from '@/db/repositories/dose-series';
import { fitDoses, type SeriesFit } from '@/lib/intake/confirmation/fit-doses';
import { CAUTIONS } from '@/lib/vocabulary/cautions';
import { species } from '@/lib/vocabulary/species';
import { UsageError } from './support/command';
import { explain } from './support/sheet-file';
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
  const runs = await readDoseSeries(db, values);
  if (runs.length === 0) {
    return say(
      'No population was sprayed at several doses in one run: sheets say so by columns for run and rate.',
    );
  }
  const fits = runs.map((run) => ({ run, fits: fitDoses(run.series, run.check) }));
  if (values.csv !== undefined) {
    await writeFile(values.csv, csv(fits)).catch((error: NodeJS.ErrnoException) => {
      throw explain(error, values.csv!);
    });
    return say(
      `${fits.flatMap((one) => one.fits).length} dose series were written to ${values.csv}: private, not for the public.`,
    );
  }
  for (const { run, fits: all } of fits) {
    say(
      `Run ${run.run} (${run.laboratory}): ${species(run.species)?.commonName ?? run.species}, group ${run.group}${run.actives.length > 0 ? ` (${run.actives.join(' + ')})` : ''}`,
    );
    for (const fit of all) say(`  ${fit.sample}: ${told(fit)}`);
  }
  say('Doses are multiples of the label rate, in a greenhouse. This list is private.');
  for (const caution of CAUTIONS) say(caution);
});

function told({ doses, plants, ed50, slope, lackOfFit, index, why }: SeriesFit): string {
  const parts = [`${doses} doses, ${plants} plants`];
  if (ed50) parts.push(`ED50 ${dose(ed50)}`);
  if (slope) parts.push(`slope ${slope.value.toFixed(2)} (standard error ${slope.standardError.toFixed(2)})`);
  if (lackOfFit !== null && lackOfFit < 0.05)
    parts.push(`the curve fits badly (p = ${lackOfFit.toPrecision(2)})`);
  if (index) parts.push(`resistance index ${ratio(index)}`);
  return `${parts.join('; ')}.${why ? ` ${why}` : ''}`;
}

function dose(ed50: NonNullable<SeriesFit['ed50']>): string {
  if (ed50.kind === 'unknown') return 'not known: the doses do not tell';
  if (ed50.kind !== 'estimate') return `${ed50.kind} ${short(ed50.dose)}`;
  return `${short(ed50.dose)} (standard error ${short(ed50.standardError)}, 95 % interval ${short(ed50.low)}–${short(ed50.high)})`;
}

function ratio(index: NonNullable<SeriesFit['index']>): string {
  if (index.kind === 'unknown') return 'not known';
  if (index.kind !== 'estimate') return `${index.kind} ${short(index.index)}`;
  return `${short(index.index)} (95 % interval ${short(index.low)}–${short(index.high)})`;
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}

function csv(runs: readonly { run: RunSeries; fits: SeriesFit[] }[]): string {
  const rows = runs.flatMap(({ run, fits }) =>
    fits.map(({ sample, doses, plants, ed50, slope, lackOfFit, index, why }) => ({
      ...{ laboratory: run.laboratory, run: run.run, sample, species: run.species, group: run.group },
      ...{ actives: run.actives.join(';'), doses, plants, ed50_known_as: ed50?.kind ?? 'none' },
      ed50_label_rates: ed50 && ed50.kind !== 'unknown' ? ed50.dose : null,
      ed50_standard_error: ed50?.kind === 'estimate' ? ed50.standardError : null,
      ed50_low: ed50?.kind === 'estimate' ? ed50.low : null,
      ed50_high: ed50?.kind === 'estimate' ? ed50.high : null,
      ...{ slope: slope?.value ?? null, slope_standard_error: slope?.standardError ?? null },
      lack_of_fit_p: lackOfFit,
      index_known_as: index?.kind ?? 'none',
      resistance_index: index && index.kind !== 'unknown' ? index.index : null,
      index_low: index?.kind === 'estimate' ? index.low : null,
      index_high: index?.kind === 'estimate' ? index.high : null,
      why: why ?? '',
    })),
  );
  return stringify(rows, { header: true, escape_formulas: true, record_delimiter: 'windows' });
}
