import { type EffectiveDose, effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { fitBinomial } from '@/lib/stats/dose-response/fit-binomial';
import { type ResistanceIndex, resistanceIndex } from '@/lib/stats/dose-response/resistance-index';
import type { DoseFit, NoFit } from '@/lib/stats/dose-response/types';

/** Plants of one tray of a dose series; doses are multiples of the label rate. */
export interface DoseTray {
  dose: number;
  treated: number;
  alive: number;
}

/** The trays of one population of a run. */
export interface DoseSeries {
  sample: string;
  trays: readonly DoseTray[];
}

/** What a dose series says. */
export interface SeriesFit {
  sample: string;
  doses: number;
  plants: number;
  /** ED50 in label rates; null where there is no curve, and `why` says so. */
  ed50: EffectiveDose | null;
  slope: { value: number; standardError: number } | null;
  /** Likelihood of so bad a fit by chance; below 0.05 the curve has the wrong form or trays vary beyond chance. */
  lackOfFit: number | null;
  /** ED50 over that of the run's susceptible check. */
  index: ResistanceIndex | null;
  /** Why there is no curve, or no index. */
  why: string | null;
}

/**
 * Log-logistic curves of survival over dose for the populations of one run, species and active, each fitted together with
 * the run's susceptible check, from which its resistance index comes. Where the check has no curve of its own (often all
 * of it died), the index is bounded by the doses that hold its ED50.
 *
 * @param check trays of the susceptible check; none where the run had no series of it
 * @source see `fitBinomial` and `resistanceIndex`
 */
export function fitDoses(series: readonly DoseSeries[], check: readonly DoseTray[]): SeriesFit[] {
  const ofCheck = check.length > 0 ? fitted(check) : null;
  return series.map((one) => fitSeries(one, check, ofCheck));
}

function fitSeries(
  { sample, trays }: DoseSeries,
  check: readonly DoseTray[],
  ofCheck: DoseFit | NoFit | null,
): SeriesFit {
  const doses = new Set(trays.map(({ dose }) => dose)).size;
  const plants = trays.reduce((sum, { treated }) => sum + treated, 0);
  const alone = fitted(trays);
  const about = { sample, doses, plants };
  if (alone.kind === 'no fit') {
    return {
      ...about,
      ed50: bounded(alone),
      slope: null,
      lackOfFit: null,
      index: null,
      why: reasonOf(alone),
    };
  }
  const together = ofCheck?.kind === 'fit' ? fitted(check, trays) : null;
  const [fit, curve] = together?.kind === 'fit' ? [together, 1] : [alone, 0];
  const { value, standardError } = fit.curves[curve]!.slope;
  const ed50 = effectiveDose(fit, 50, { curve });
  return {
    ...about,
    ed50,
    slope: { value, standardError },
    lackOfFit: alone.lackOfFit?.p ?? null,
    ...indexOf(ed50, together, ofCheck),
  };
}

function fitted(...curves: (readonly DoseTray[])[]): DoseFit | NoFit {
  const rows = curves.flatMap((trays, curve) => trays.map((tray) => ({ ...tray, curve })));
  return fitBinomial(
    {
      dose: rows.map(({ dose }) => dose),
      treated: rows.map(({ treated }) => treated),
      alive: rows.map(({ alive }) => alive),
      curve: rows.map(({ curve }) => curve),
    },
    { heterogeneity: true },
  );
}

/** The reason alone: here each fit is of one curve, or says which it is about. */
function reasonOf({ message }: NoFit): string {
  return message.replace(/^Curve \d+: /, '');
}

/** Where an ED50 lies of which no curve tells. */
function bounded({ above, below }: NoFit): EffectiveDose | null {
  if (above !== null && above > 0 && below === null) return { kind: 'above', dose: above };
  return below !== null && (above === null || above === 0) ? { kind: 'below', dose: below } : null;
}

function indexOf(
  ed50: EffectiveDose,
  together: DoseFit | NoFit | null,
  ofCheck: DoseFit | NoFit | null,
): Pick<SeriesFit, 'index' | 'why'> {
  if (ofCheck === null) return { index: null, why: 'The run has no dose series of its susceptible check.' };
  if (together?.kind === 'fit') return { index: resistanceIndex(together), why: null };
  const refusal = together?.kind === 'no fit' ? together : (ofCheck as NoFit);
  const why = `Susceptible check: ${reasonOf(refusal)}`;
  const bound = ofCheck.kind === 'no fit' ? bounded(ofCheck) : null;
  if (ed50.kind !== 'estimate' || bound?.kind !== 'below') return { index: null, why };
  return { index: { kind: 'above', index: ed50.dose / bound.dose }, why };
}
