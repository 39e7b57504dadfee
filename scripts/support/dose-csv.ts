import { stringify } from 'csv-stringify/sync';
import type { RunSeries } from '@/db/repositories/dose-series';
import type { SeriesFit } from '@/lib/intake/confirmation/fit-doses';

/** Dose series as CSV, one a row, with all digits; doses are multiples of the label rate. */
export function doseCsv(runs: readonly { run: RunSeries; fits: readonly SeriesFit[] }[]): string {
  const rows = runs.flatMap(({ run, fits }) =>
    fits.map(({ sample, doses, plants, ed50, slope, lackOfFit, index, why }, i) => ({
      laboratory: run.laboratory,
      run: run.run,
      sample,
      season: run.series[i]!.season,
      species: run.species,
      group: run.group,
      actives: run.actives.join(';'),
      assay: run.assay,
      doses,
      plants,
      ed50_known_as: ed50?.kind ?? 'none',
      ed50_label_rates: ed50 && ed50.kind !== 'unknown' ? ed50.dose : null,
      ed50_standard_error: ed50?.kind === 'estimate' ? ed50.standardError : null,
      ed50_low: ed50?.kind === 'estimate' ? ed50.low : null,
      ed50_high: ed50?.kind === 'estimate' ? ed50.high : null,
      slope: slope?.value ?? null,
      slope_standard_error: slope?.standardError ?? null,
      lack_of_fit_p: lackOfFit,
      index_known_as: index?.kind ?? 'none',
      resistance_index: index && index.kind !== 'unknown' ? index.index : null,
      index_low: index?.kind === 'estimate' ? index.low : null,
      index_high: index?.kind === 'estimate' ? index.high : null,
      untreated_plants: run.untreated.reduce((sum, { treated }) => sum + treated, 0),
      untreated_alive: run.untreated.reduce((sum, { alive }) => sum + alive, 0),
      why: why ?? '',
    })),
  );
  return stringify(rows, { header: true, escape_formulas: true, record_delimiter: 'windows' });
}
