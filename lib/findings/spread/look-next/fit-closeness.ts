import { atRisk } from '@/lib/stats/spread/at-risk';
import { fitHazard } from '@/lib/stats/spread/hazard/fit-hazard';
import type { HazardFit, HazardSeasons, NoHazard } from '@/lib/stats/spread/hazard/types';
import type { Arrivals, SeasonCounts } from '@/lib/stats/spread/types';
import type { Closeness } from './closeness';
import type { NoModelReason } from './types';

/** The hazard by one measure, and how much it counts: weights add up to 1. */
export interface ClosenessFit {
  measure: Closeness;
  fit: HazardFit;
  weight: number;
}

export interface ClosenessFits {
  /** Heaviest first. */
  fits: ClosenessFit[];
  /**
   * Wald p of no effect of the heaviest inside seasons, times the number of measures tried: as seasons go by more is found
   * and finds come nearer, with spread or without. 1 where seasons leave nothing to compare or it falls.
   */
  p: number;
}

/**
 * The hazard of a first find by how near the finds are, by each of several measures. Each has one parameter and the same
 * rows, so their likelihoods are their weights.
 *
 * @returns the fits; or why there is none
 * @policy One level for all seasons: levels by season would leave out the seasons in which nothing was found and so
 *   promise too much of the next (on simulated seasons up to four times what came). Measures under which new finds come *less*
 *   near to earlier ones are not used: what follows from that is no spread. A measure whose effect has no end has no fit.
 *   Fewer than five new finds carry no model (five to nine for each parameter: Vittinghoff & McCulloch 2007, Am. J.
 *   Epidemiology 165:710–718, from memory).
 * @throws StatsError `bad argument`, `bad count`
 * @source weights by likelihood (Akaike's, for equal numbers of parameters): Burnham & Anderson 2002, Model Selection and
 *   Multimodel Inference, section 2.9 (from memory)
 */
export function fitCloseness(
  counts: SeasonCounts,
  known: Arrivals,
  measures: readonly Closeness[],
): ClosenessFits | { reason: NoModelReason; message: string } {
  if (known.firstFound.every((season) => season === -1))
    return none('nothing found', 'nothing was found so far');
  if (counts.seasons.length < 2) {
    return none('one season', 'it takes two seasons to find a place that was clean before');
  }
  const panel = atRisk(counts, known);
  const newFinds = panel.isNew.reduce((sum, each) => sum + each, 0);
  if (newFinds < LEAST_FINDS) {
    const found =
      newFinds === 0 ? 'no place was' : newFinds === 1 ? 'one place was' : `${newFinds} places were`;
    return none('too few finds', `${found} found after a clean record, and a model takes ${LEAST_FINDS}`);
  }
  const fitOf = (measure: Closeness, seasons: HazardSeasons) => {
    const values = rowsOf(measure, panel, counts.places);
    return fitHazard(panel, counts.seasons, [{ name: measure.name, values }], { seasons });
  };
  const all = measures.map((measure) => ({ measure, fit: fitOf(measure, 'none') }));
  const rising = all.filter(isRising);
  if (rising.length === 0) return whyNone(all.map(({ fit }) => fit));
  const best = Math.max(...rising.map(({ fit }) => fit.logLikelihood));
  const total = rising.reduce((sum, { fit }) => sum + Math.exp(fit.logLikelihood - best), 0);
  const fits = rising
    .map((one) => ({ ...one, weight: Math.exp(one.fit.logLikelihood - best) / total }))
    .sort((a, b) => b.weight - a.weight);
  const inside = fitOf(fits[0]!.measure, 'effects');
  const isShown = inside.kind === 'fit' && inside.estimates[0]!.value > 0;
  return { fits, p: isShown ? Math.min(1, measures.length * inside.estimates[0]!.p) : 1 };
}

const LEAST_FINDS = 5;

function rowsOf(
  { values }: Closeness,
  { season, place }: { season: Int32Array; place: Int32Array },
  places: number,
): Float64Array {
  return Float64Array.from(place, (i, row) => values[season[row]! * places + i]!);
}

function isRising(one: {
  measure: Closeness;
  fit: HazardFit | NoHazard;
}): one is { measure: Closeness; fit: HazardFit } {
  return one.fit.kind === 'fit' && one.fit.estimates[0]!.value > 0;
}

function whyNone(fits: readonly (HazardFit | NoHazard)[]) {
  if (fits.some(({ kind }) => kind === 'fit')) {
    return none(
      'not nearer to finds',
      'new finds did not come nearer to earlier ones than chance brings them',
    );
  }
  const endless = fits.some((fit) => fit.kind === 'no fit' && fit.reason === 'separated');
  if (endless)
    return none('no end', 'so far every new find, or none, lay near earlier ones: the effect has no end');
  return none('nothing to compare', 'all places at risk lay as near to earlier finds');
}

function none(reason: NoModelReason, message: string): { reason: NoModelReason; message: string } {
  return { reason, message };
}
