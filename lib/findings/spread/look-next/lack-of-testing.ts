import type { HazardFit } from '@/lib/stats/spread/hazard/types';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { Closeness } from './closeness';

/**
 * How much is left to find out about a place that was clean so far: 1 / (1 + E), where E is how many finds its tests let
 * expect, each at the hazard of its season. Never tested: 1. Tested so much that one find was due: ½. Clean tests from
 * before anything was found near by were due little, so they count little.
 *
 * It is the mean that is left of a place's own risk when risks differ between places as an exponential distribution of
 * mean 1 and none was found where E were due (gamma frailty of variance 1).
 *
 * @returns one value for each place, (0, 1]; of places with finds it says nothing
 * @source Vaupel, Manton & Stallard 1979, Demography 16:439–454 (from memory). The variance is our choice, not fitted
 * @cost O(seasons · places)
 */
export function lackOfTesting(
  { seasons, places, tested }: Pick<SeasonCounts, 'seasons' | 'places' | 'tested'>,
  { theta }: Pick<HazardFit, 'theta'>,
  { values }: Closeness,
): Float64Array {
  const due = new Float64Array(places);
  for (let cell = 0; cell < seasons.length * places; cell += 1) {
    if (tested[cell] === 0) continue;
    due[cell % places]! += tested[cell]! * Math.exp(Math.min(HIGHEST, theta[0]! * values[cell]! + theta[1]!));
  }
  return due.map((each) => 1 / (1 + each));
}

/** e^η beyond this would overflow. */
const HIGHEST = 300;
