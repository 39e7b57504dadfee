import { arrivals } from '../arrivals';
import { chords } from '../chords';
import { ARRIVAL } from '../types';
import type { SpreadMap } from './types';

/** A find too far from any earlier one for the front to have come that far. */
export interface Jump {
  place: number;
  /** Row of the season in which it was found new. */
  season: number;
  /** The place found in an earlier season that lies nearest, and its distance. */
  nearest: number;
  distance: number;
}

/**
 * Places found new after a clean record so far ahead that from no place found before could the front have come: farther
 * from each of them than the front goes in the seasons since, and in twice its width besides.
 *
 * @param front speed (its upper limit, so that a slow estimate makes no jumps) and width in seasons
 * @policy A jump may be seed that was carried, a second beginning, a mistaken place or a false find: it says where to ask.
 *   A place found at its first test is none, for nobody knows since when it was there.
 * @cost O(new finds · finds)
 */
export function jumpsAhead({ counts, points }: SpreadMap, front: { speed: number; width: number }): Jump[] {
  const { seasons, places } = counts;
  const { firstFound, kind } = arrivals(counts);
  const { square, distanceOf } = chords(points, places);
  const jumps: Jump[] = [];
  for (let place = 0; place < places; place += 1) {
    if (kind[place] !== ARRIVAL.newAfterClean) continue;
    let [nearest, distance, isReached] = [-1, Number.POSITIVE_INFINITY, false];
    for (let other = 0; other < places && !isReached; other += 1) {
      const before = firstFound[other]!;
      if (before === -1 || before >= firstFound[place]!) continue;
      const away = distanceOf(square(place, other));
      isReached = away <= front.speed * (seasons[firstFound[place]!]! - seasons[before]! + 2 * front.width);
      if (away < distance) [nearest, distance] = [other, away];
    }
    if (!isReached && nearest >= 0) jumps.push({ place, season: firstFound[place]!, nearest, distance });
  }
  return jumps.sort((a, b) => b.distance - a.distance || a.place - b.place);
}
