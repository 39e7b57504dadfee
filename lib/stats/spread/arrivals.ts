import { checkSeasonCounts } from './check-season-counts';
import { ARRIVAL, type Arrivals, type SeasonCounts } from './types';

/**
 * When was each place first found resistant, and was it clean before? A place that is resistant when it is first looked
 * at is newly observed, not newly reached.
 *
 * @returns rows of seasons; −1 where there is none
 * @policy A season without tests says nothing: it is neither clean nor the end of a clean record, however long the gap.
 * @throws StatsError `bad argument`, `bad count`
 * @source the project's statistics brief; interval censoring: Turnbull 1976, JRSS B 38:290–295 (from memory)
 * @cost O(seasons · places)
 * @example // one place, 2 and 3 tested, 1 of the 3 resistant
 * arrivals({ seasons: [2020, 2021], places: 1, tested: Int32Array.of(2, 3), resistant: Int32Array.of(0, 1) }).kind[0]; // 3
 */
export function arrivals(counts: SeasonCounts): Arrivals {
  checkSeasonCounts(counts);
  const { seasons, places, tested, resistant } = counts;
  const none = () => new Int32Array(places).fill(-1);
  const firstTested = none();
  const firstFound = none();
  const lastClean = none();
  for (let t = 0; t < seasons.length; t += 1) {
    for (let i = 0; i < places; i += 1) {
      const cell = t * places + i;
      if (tested[cell] === 0) continue;
      if (firstTested[i] === -1) firstTested[i] = t;
      if (firstFound[i] !== -1) continue;
      if (resistant[cell]! > 0) firstFound[i] = t;
      else lastClean[i] = t;
    }
  }
  const kind = Uint8Array.from(firstTested, (first, i) => {
    if (first === -1) return ARRIVAL.neverTested;
    if (firstFound[i] === -1) return ARRIVAL.neverFound;
    return lastClean[i] === -1 ? ARRIVAL.foundAtFirstTest : ARRIVAL.newAfterClean;
  });
  return { firstTested, firstFound, lastClean, kind };
}
