import { arrivalTimes } from './arrival-times';
import { risingShareCells } from './rising-share-likelihood';
import type { FrontFit, SpreadMap } from './types';

/**
 * How well does one front tell when each group of points filled? Log-likelihood of the counts where each group is moved to
 * the time that suits it best, level and width being the front's: no front from anywhere can do better.
 *
 * @policy Times are moved in tenths of a season, by up to twice the seasons there are.
 * @cost places · 40 · seasons passes over their points
 */
export function ownTimesLikelihood(map: SpreadMap, fit: FrontFit): number {
  const { seasons } = map.counts;
  const expected = arrivalTimes(map.points, fit.origins.length);
  expected.write(fit.theta);
  const time = expected.time.slice();
  const terms = risingShareCells(map, time);
  terms.prepare(fit.width, fit.level);
  const reach = 20 * Math.max(1, seasons[seasons.length - 1]! - seasons[0]!);
  return terms.places.reduce((sum, place, k) => {
    const points = map.members?.[place] ?? [place];
    let best = Number.NEGATIVE_INFINITY;
    for (let tenths = -reach; tenths <= reach; tenths += 1) {
      for (const point of points) time[point] = expected.time[point]! + tenths / 10;
      best = Math.max(best, terms.logLikelihood(k));
    }
    return sum + best;
  }, 0);
}
