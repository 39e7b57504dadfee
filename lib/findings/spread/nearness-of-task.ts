import type { SeasonCounts } from '@/lib/stats/spread/types';
import { periodLabel } from '@/lib/vocabulary/terms';
import { findNearness } from './find-nearness';
import type { SpreadCounts } from './spread-counts';
import type { Nearness, SpreadTask } from './types';

/** Whether new finds of one species × group lie near earlier ones, those from before the programme among them. Private. */
export function nearnessOfTask(task: SpreadTask, { counts, ...where }: SpreadCounts): Nearness {
  return findNearness({
    ...{ ...where, counts: withEarlierFinds(task, counts), seed: task.seed, about: aboutTask(task) },
  });
}

/** As `kochia, group 27, 2013–2024`. */
export function aboutTask({ speciesName, group, seasons }: SpreadTask): string {
  return `${speciesName}, group ${group}, ${periodLabel({ first: seasons[0]!, last: seasons.at(-1)! })}`;
}

/**
 * What was known before the programme counts as found in a season before all others, and nowhere else: such a county is
 * never at risk, and its neighbours have an earlier find next door.
 */
function withEarlierFinds({ ground, foundBefore }: SpreadTask, counts: SeasonCounts): SeasonCounts {
  if (foundBefore.length === 0) return counts;
  const earlier = new Set(foundBefore);
  const known = Int32Array.from(ground.counties, (county) => Number(earlier.has(county)));
  const before = (values: Int32Array) => Int32Array.from([...known, ...values]);
  return {
    ...counts,
    seasons: [counts.seasons[0]! - 1, ...Array.from(counts.seasons)],
    tested: before(counts.tested),
    resistant: before(counts.resistant),
  };
}
