import { type EffectiveDose, effectiveDose } from '@/lib/stats/dose-response/effective-dose';
import { fitBinomial } from '@/lib/stats/dose-response/fit-binomial';
import {
  boundedIndex,
  type ResistanceIndex,
  resistanceIndex,
} from '@/lib/stats/dose-response/resistance-index';
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

/** Plants of the run's species that nothing was sprayed on. */
export interface UntreatedTray {
  treated: number;
  alive: number;
}

/**
 * Log-logistic curves of survival over dose for the populations of one run, species and active, each fitted together with
 * the run's susceptible check, from which its resistance index comes. Where untreated plants died, their death is a limit
 * that both curves share, so that it is not taken for the herbicide's; else every plant would live without it. Where one
 * of the two has no curve (often all of the check died), the index is bounded by the doses that hold the two ED50s.
 *
 * @param check trays of the susceptible check; none where the run had no series of it
 * @policy what a population is said to show does not depend on the other populations of its run
 * @source see `fitBinomial` and `resistanceIndex`
 */
export function fitDoses(
  series: readonly DoseSeries[],
  check: readonly DoseTray[],
  untreated: readonly UntreatedTray[] = [],
): SeriesFit[] {
  const beside = untreated.map((tray) => ({ dose: 0, ...tray }));
  const upper = untreated.some(({ treated, alive }) => alive < treated) ? 'free' : 1;
  const fitCurves: Fitter = (...curves) => fitted(upper, [[...curves[0]!, ...beside], ...curves.slice(1)]);
  const ofCheck = check.length > 0 ? fitCurves(check) : null;
  return series.map((one) => fitSeries(one, check, ofCheck, fitCurves));
}

type Fitter = (...curves: (readonly DoseTray[])[]) => DoseFit | NoFit;

function fitSeries(
  { sample, trays }: DoseSeries,
  check: readonly DoseTray[],
  ofCheck: DoseFit | NoFit | null,
  fitCurves: Fitter,
): SeriesFit {
  const doses = new Set(trays.map(({ dose }) => dose)).size;
  const plants = trays.reduce((sum, { treated }) => sum + treated, 0);
  const alone = fitCurves(trays);
  const about = { sample, doses, plants };
  if (alone.kind === 'no fit') {
    const ed50 = bounded(alone);
    const index = indexBound(ed50, ofCheck === null ? null : ed50Of(ofCheck));
    return { ...about, ed50, slope: null, lackOfFit: null, index, why: reasonOf(alone) };
  }
  const together = ofCheck?.kind === 'fit' ? fitCurves(check, trays) : null;
  const [best, curve] = together?.kind === 'fit' ? [together, 1] : [alone, 0];
  const { value, standardError } = best.curves[curve]!.slope;
  const ed50 = effectiveDose(best, 50, { curve });
  return {
    ...about,
    ed50,
    slope: { value, standardError },
    lackOfFit: alone.lackOfFit?.p ?? null,
    ...indexOf(ed50, together, ofCheck),
  };
}

function fitted(upper: 1 | 'free', curves: readonly (readonly DoseTray[])[]): DoseFit | NoFit {
  const rows = curves.flatMap((trays, curve) => trays.map((tray) => ({ ...tray, curve })));
  return fitBinomial(
    {
      dose: rows.map(({ dose }) => dose),
      treated: rows.map(({ treated }) => treated),
      alive: rows.map(({ alive }) => alive),
      curve: rows.map(({ curve }) => curve),
    },
    { upper, heterogeneity: true },
  );
}

function indexOf(
  ed50: EffectiveDose,
  together: DoseFit | NoFit | null,
  ofCheck: DoseFit | NoFit | null,
): Pick<SeriesFit, 'index' | 'why'> {
  if (ofCheck === null) return { index: null, why: 'The run has no dose series of its susceptible check.' };
  if (together?.kind === 'fit') return { index: resistanceIndex(together), why: null };
  const refusal = ofCheck.kind === 'no fit' ? ofCheck : (together as NoFit);
  const whose =
    ofCheck.kind === 'no fit' || refusal.curve === 0 ? 'Susceptible check' : 'Together with the check';
  return { index: indexBound(ed50, ed50Of(ofCheck)), why: `${whose}: ${reasonOf(refusal)}` };
}

/** The reason alone: each fit here is of one curve, or of the check's and one. */
function reasonOf({ message }: NoFit): string {
  return message.replace(/^Curve \d+: /, '');
}

function ed50Of(fit: DoseFit | NoFit): EffectiveDose | null {
  return fit.kind === 'fit' ? effectiveDose(fit, 50) : bounded(fit);
}

/** Where an ED50 lies of which no curve tells. */
function bounded({ above, below }: NoFit): EffectiveDose | null {
  if (above !== null && above > 0 && below === null) return { kind: 'above', dose: above };
  return below !== null && (above === null || above === 0) ? { kind: 'below', dose: below } : null;
}

/** Null where nothing follows from what is known of the two. */
function indexBound(population: EffectiveDose | null, check: EffectiveDose | null): ResistanceIndex | null {
  const index = population && check && boundedIndex(population, check);
  return index?.kind === 'unknown' ? null : index;
}
