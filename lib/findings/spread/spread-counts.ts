import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import { buildWeights, type Weights } from '@/lib/stats/weights';
import type { SpreadTask } from './types';

/** What the methods for one species × group share. */
export interface SpreadCounts {
  /** Tested and resistant populations by closed season and county. */
  counts: SeasonCounts;
  points: SpreadPoints;
  weights: Weights;
}

export function spreadCounts({ seasons, ground, populations }: SpreadTask): SpreadCounts {
  const places = ground.counties.length;
  const tested = new Int32Array(seasons.length * places);
  const resistant = new Int32Array(seasons.length * places);
  populations.season.forEach((row, i) => {
    const cell = row * places + populations.county[i]!;
    tested[cell]! += 1;
    resistant[cell]! += populations.resistant[i]!;
  });
  return {
    counts: { seasons, places, tested, resistant },
    points: { x: ground.lon, y: ground.lat, metric: 'great circle' },
    weights: buildWeights(ground.neighbours, 'binary'),
  };
}
