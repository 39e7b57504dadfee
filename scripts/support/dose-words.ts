import type { RunSeries } from '@/db/repositories/dose-series';
import type { SeriesFit } from '@/lib/intake/confirmation/fit-doses';
import { LEAST_DOSES } from '@/lib/stats/dose-response/no-fit';
import { commonNameOf } from '@/lib/vocabulary/species';

/** What the dose series of a run say, line by line; populations of too few doses are counted, not listed. */
export function doseLines(run: RunSeries, fits: readonly SeriesFit[]): string[] {
  const assay = run.assay === 'whole plant' ? '' : `, ${run.assay}`;
  const actives = run.actives.length > 0 ? ` (${run.actives.join(' + ')})` : '';
  const few = fits.filter(({ doses }) => doses < LEAST_DOSES).length;
  return [
    `Run ${run.run} (${run.laboratory}): ${commonNameOf(run.species)}, group ${run.group}${actives}${assay}`,
    ...fits.flatMap((fit, i) =>
      fit.doses < LEAST_DOSES ? [] : `  ${fit.sample} (${run.series[i]!.season}): ${told(fit)}`,
    ),
    ...(few > 0
      ? [
          `  ${few} ${few === 1 ? 'population was' : 'populations were'} sprayed at two doses: a curve needs three.`,
        ]
      : []),
    ...untreatedLine(run),
  ];
}

function told({ doses, plants, ed50, slope, lackOfFit, index, why }: SeriesFit): string {
  const parts = [`${doses} doses, ${plants} plants`];
  if (ed50) parts.push(`ED50 ${dose(ed50)}`);
  if (slope) parts.push(`slope ${short(slope.value)} (standard error ${short(slope.standardError)})`);
  if (lackOfFit !== null) {
    const bad = lackOfFit < 0.05 ? ': the curve fits badly' : '';
    parts.push(`lack of fit p = ${lackOfFit.toPrecision(2)}${bad}`);
  }
  if (index) parts.push(`resistance index ${ratio(index)}`);
  return `${parts.join('; ')}.${why ? ` ${why.charAt(0).toUpperCase()}${why.slice(1)}` : ''}`;
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

function untreatedLine({ untreated }: RunSeries): string[] {
  const plants = untreated.reduce((sum, { treated }) => sum + treated, 0);
  const dead = plants - untreated.reduce((sum, { alive }) => sum + alive, 0);
  if (dead === 0) return [];
  return [
    `  ${dead} of ${plants} untreated plants died: the curves start from the share that lives without herbicide.`,
  ];
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}
