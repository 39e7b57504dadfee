import type { SpeedOptions } from '@/lib/stats/spread/speed/speed';
import type { SpeedOfSpread } from '../types';
import { findSpeed } from './find-speed';
import type { SpreadCounts } from './spread-counts';
import type { SpreadTask } from './types';

/** The speed by county of one species × group, from an origin that is stated or from the one that fits best. Private. */
export function speedOfTask(
  { species, group, ground, speciesName }: SpreadTask,
  { counts, points, weights }: SpreadCounts,
  options: Pick<SpeedOptions, 'nearnessP' | 'origin'>,
): SpeedOfSpread {
  return findSpeed({
    ...{ species, group, grain: 'county', speciesName },
    map: { counts, points },
    points: ground.counties,
    pointNames: ground.countyNames,
    options: { ...options, weights },
  });
}
