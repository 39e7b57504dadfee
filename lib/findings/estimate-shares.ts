import { empiricalBayes } from '@/lib/stats/empirical-bayes';
import { wilsonInterval } from '@/lib/stats/wilson-interval';
import { knownPlaces } from './known-places';
import type { Observation, ShareEstimate } from './types';

/**
 * Share of resistant among tested for each known place, with its 95 % Wilson interval and its empirical-Bayes share
 * (drawn towards the mean of all given places; for looking at, never to be tested).
 *
 * @param observations of one species × group × period at one kind of place, in any order
 * @returns ascending by place; places with nothing tested are left out
 * @throws RangeError for a place that is given twice; StatsError for impossible counts
 */
export function estimateShares(observations: readonly Observation[]): ShareEstimate[] {
  const known = knownPlaces(observations);
  if (known.length === 0) return [];
  const { estimate } = empiricalBayes(
    known.map(({ resistant }) => resistant),
    known.map(({ tested }) => tested),
    'binomial',
  );
  return known.map(({ place, tested, resistant }, i) => ({
    place,
    tested,
    resistant,
    share: resistant / tested,
    ...wilsonInterval(resistant, tested),
    smoothed: estimate[i]!,
  }));
}
