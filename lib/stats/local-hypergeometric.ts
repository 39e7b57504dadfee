import { checkCounts, checkLengths, StatsError } from './errors';
import { hypergeometricTest } from './hypergeometric';
import { neighbourSums, type Weights } from './weights';

export interface LocalHypergeometric {
  /** Tested and resistant at a place and its neighbours together. */
  windowTested: Float64Array;
  windowResistant: Float64Array;
  /** Resistant that the window would hold if the share were the same everywhere. */
  expected: Float64Array;
  /** Exact chance of at least (at most) so many resistant in the window, when any of the tested may be the resistant. */
  pGreater: Float64Array;
  pLess: Float64Array;
  /** Two-sided: twice the smaller of the two, at most 1. */
  p: Float64Array;
}

/**
 * Which places lie amid more, or fewer, resistant than the region's share lets expect? Given how many were tested
 * where, and how many are resistant in all, the number in a place and its neighbours is hypergeometric if resistance
 * is no likelier there than elsewhere. So p is exact, however few were tested, and has no Monte Carlo floor. Adjust it
 * for the number of places: `benjaminiHochberg`, or `minimumP` against any false alarm.
 *
 * @param resistant for each place, a whole number of 0 … tested
 * @param tested for each place, a whole number > 0
 * @param weights of the same places; only who is whose neighbour counts, not the style
 * @param midP as in `hypergeometricTest`
 * @policy A place without neighbours is tested by itself. Where none or all are resistant each p is 1.
 * @throws StatsError `bad count`, `nothing tested`, `bad argument`, `too few` without any place
 * @source the test of one window given its margins, as in Kulldorff & Nagarwalla 1995, Statistics in Medicine
 *   14:799–810, for windows that are given beforehand; p from the hypergeometric distribution (Fisher)
 * @cost O(links + places · standard deviation of a window's count)
 */
export function localHypergeometric(
  resistant: ArrayLike<number>,
  tested: ArrayLike<number>,
  weights: Weights,
  { midP = false }: { midP?: boolean } = {},
): LocalHypergeometric {
  const { total, marked } = totals(resistant, tested, weights);
  const windowTested = windowSums(weights, tested);
  const windowResistant = windowSums(weights, resistant);
  const result: LocalHypergeometric = {
    windowTested,
    windowResistant,
    expected: windowTested.map((drawn) => (drawn * marked) / total),
    pGreater: new Float64Array(weights.places),
    pLess: new Float64Array(weights.places),
    p: new Float64Array(weights.places),
  };
  for (let i = 0; i < weights.places; i += 1) {
    const draw = { total, marked, drawn: windowTested[i]! };
    const { greater, less, twoSided } = hypergeometricTest(windowResistant[i]!, draw, { midP });
    result.pGreater[i] = greater;
    result.pLess[i] = less;
    result.p[i] = twoSided;
  }
  return result;
}

function totals(
  resistant: ArrayLike<number>,
  tested: ArrayLike<number>,
  { places, rowWeight }: Weights,
): { total: number; marked: number } {
  checkLengths(resistant, tested, 'Resistant and tested');
  checkLengths(tested, rowWeight, 'Counts and weights');
  if (places === 0) throw new StatsError('too few', 'Got no places; the local test needs one.');
  let total = 0;
  let marked = 0;
  for (let i = 0; i < places; i += 1) {
    checkCounts(resistant[i]!, tested[i]!, `Place ${i}`);
    total += tested[i]!;
    marked += resistant[i]!;
  }
  return { total, marked };
}

/** For each place its own count and its neighbours'. */
function windowSums(weights: Weights, counts: ArrayLike<number>): Float64Array {
  const own = Float64Array.from(counts);
  return neighbourSums(weights, own).map((sum, i) => sum + own[i]!);
}
