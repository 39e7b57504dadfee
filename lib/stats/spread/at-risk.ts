import { arrivals } from './arrivals';
import type { Arrivals, AtRisk, SeasonCounts } from './types';

/**
 * At risk in a season: tested in it, tested before it, and not found before it. Only such a place can be found new.
 *
 * @param known `arrivals(counts)`, where it is there already
 * @throws StatsError `bad argument`, `bad count`
 * @source the project's statistics brief; risk sets of discrete time: Cox 1972, JRSS B 34:187–220 (from memory)
 * @cost O(seasons · places)
 */
export function atRisk(counts: SeasonCounts, known: Arrivals = arrivals(counts)): AtRisk {
  const { seasons, places, tested } = counts;
  const offsets = new Int32Array(seasons.length + 1);
  const cells: number[] = [];
  for (let t = 0; t < seasons.length; t += 1) {
    for (let i = 0; i < places; i += 1) {
      const before = known.firstTested[i]!;
      const found = known.firstFound[i]!;
      const isAtRisk = tested[t * places + i]! > 0 && before < t && (found === -1 || found >= t);
      if (isAtRisk) cells.push(t * places + i);
    }
    offsets[t + 1] = cells.length;
  }
  const season = Int32Array.from(cells, (cell) => Math.floor(cell / places));
  const place = Int32Array.from(cells, (cell) => cell % places);
  return {
    offsets,
    season,
    place,
    tested: Int32Array.from(cells, (cell) => tested[cell]!),
    isNew: Uint8Array.from(cells, (_, row) => Number(known.firstFound[place[row]!] === season[row])),
  };
}
