import { chords } from './chords';
import type { Arrivals, AtRisk, SpreadPoints } from './types';

/**
 * For each row of the places at risk: how far is it to the nearest place found in an earlier season?
 *
 * @returns km (`great circle`) or the plane's unit; Infinity where nothing was found before
 * @throws StatsError `bad argument` for coordinates that are none
 * @cost O(places · places found), one pass over the seasons
 */
export function nearestFound(rows: AtRisk, { firstFound }: Arrivals, points: SpreadPoints): Float64Array {
  const places = firstFound.length;
  const { square, distanceOf } = chords(points, places);
  const nearest = new Float64Array(places).fill(Number.POSITIVE_INFINITY);
  const distances = new Float64Array(rows.place.length);
  for (let t = 0; t + 1 < rows.offsets.length; t += 1) {
    for (let row = rows.offsets[t]!; row < rows.offsets[t + 1]!; row += 1) {
      const least = nearest[rows.place[row]!]!;
      distances[row] = least === Number.POSITIVE_INFINITY ? least : distanceOf(least);
    }
    for (let found = 0; found < places; found += 1) {
      if (firstFound[found] !== t) continue;
      for (let i = 0; i < places; i += 1) {
        const away = square(i, found);
        if (away < nearest[i]!) nearest[i] = away;
      }
    }
  }
  return distances;
}
