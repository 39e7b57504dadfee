import type { SpeedOptions } from '@/lib/stats/spread/speed/speed';
import { buildWeights } from '@/lib/stats/weights';
import type { SpeedOfSpread } from '../types';
import { findSpeed } from './find-speed';
import { spreadCounts } from './spread-counts';
import type { SpreadTask } from './types';

/** The speed by county of one species × group, from an origin that is stated or from the one that fits best. Private. */
export function speedOfTask(
  task: SpreadTask,
  options: Pick<SpeedOptions, 'nearnessP' | 'origin'>,
): SpeedOfSpread {
  const { species, group, ground, speciesName } = task;
  return findSpeed({
    ...{ species, group, grain: 'county', speciesName },
    map: { counts: spreadCounts(task), points: { x: ground.lon, y: ground.lat, metric: 'great circle' } },
    points: ground.counties,
    pointNames: ground.countyNames,
    options: { ...options, weights: buildWeights(ground.neighbours, 'binary') },
  });
}
