import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { SpreadTask } from './types';

/** Tested and resistant populations by closed season and county. */
export function spreadCounts({ seasons, ground, populations }: SpreadTask): SeasonCounts {
  const places = ground.counties.length;
  const tested = new Int32Array(seasons.length * places);
  const resistant = new Int32Array(seasons.length * places);
  populations.season.forEach((row, i) => {
    const cell = row * places + populations.county[i]!;
    tested[cell]! += 1;
    resistant[cell]! += populations.resistant[i]!;
  });
  return { seasons, places, tested, resistant };
}
