import { checkPermutations } from './errors';
import { type LocalHypergeometric, localHypergeometric } from './local-hypergeometric';
import { type Alternative, firstWhere } from './minimum-p-levels';
import { mapMinima } from './minimum-p-maps';
import type { Random } from './random';
import { allocation } from './scan/allocate';
import type { Weights } from './weights';

export interface MinimumPOptions {
  /** Maps that are drawn under one share for all, as 9,999. */
  replicates: number;
  random: Random;
  /** Look for too many, too few (`less`), or either. Default `two-sided`. */
  alternative?: Alternative;
  /** As in `hypergeometricTest`. Default false. */
  midP?: boolean;
}

export interface MinimumP {
  local: LocalHypergeometric;
  /** (M + 1) / (R + 1), M of R replicates in which some place has a p as small as this place's: in (0, 1]. */
  adjusted: Float64Array;
  /** The smallest p of each replicate, ascending. */
  minima: Float64Array;
}

/**
 * The exact local test, with p adjusted so that some place is flagged on a map without pattern only as often as the
 * level says, though neighbouring windows overlap and counts are few. The resistant are dealt out again among all
 * tested, each choice equally likely, and each place's p is held against the smallest p of every such map.
 *
 * @param resistant for each place, a whole number of 0 … tested
 * @param tested for each place, a whole number > 0; 2^21 in all at most
 * @param weights of the same places; only who is whose neighbour counts, not the style
 * @policy As `localHypergeometric`. p that differ by less than 1e-9 of themselves count as equal. Single-step: the level
 *   holds for “no place differs”; it is not claimed for the places outside a true cluster.
 * @throws StatsError as `localHypergeometric`; `bad argument` for replicates < 1 or too many tested
 * @source Westfall & Young 1993, Resampling-Based Multiple Testing, the single-step minimum p (from memory);
 *   (M + 1) / (R + 1): Phipson & Smyth 2010, Statistical Applications in Genetics and Molecular Biology 9(1) 39
 * @cost O(replicates · (resistant + links))
 */
export function minimumP(
  resistant: ArrayLike<number>,
  tested: ArrayLike<number>,
  weights: Weights,
  { replicates, random, alternative = 'two-sided', midP = false }: MinimumPOptions,
): MinimumP {
  checkPermutations(replicates);
  const local = localHypergeometric(resistant, tested, weights, { midP });
  const test = { total: sumOf(tested), marked: sumOf(resistant), alternative, midP };
  const allocate = allocation({
    allocation: 'among tested',
    tested: Float64Array.from(tested),
    resistant: Int32Array.from(resistant),
    seasons: 1,
    totalResistant: test.marked,
  });
  const { lanes, smallest } = mapMinima(weights, local.windowTested, test);
  const maps = Array.from({ length: lanes }, () => new Int32Array(weights.places));
  const minima = new Float64Array(replicates);
  for (let r = 0; r < replicates; r += lanes) {
    const batch = maps.slice(0, replicates - r);
    for (const map of batch) allocate(random, map);
    minima.set(smallest(batch), r);
  }
  minima.sort();
  const own = { greater: local.pGreater, less: local.pLess, 'two-sided': local.p }[alternative];
  const adjusted = own.map((p) => {
    const asSmall = firstWhere(0, replicates - 1, (at) => minima[at]! > p * (1 + 1e-9));
    return (asSmall + 1) / (replicates + 1);
  });
  return { local, adjusted, minima };
}

function sumOf(counts: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < counts.length; i += 1) sum += counts[i]!;
  return sum;
}
