import type { StaffDatabase } from '@/db/clients/staff';
import { UserError } from '@/db/errors';
import { nearnessOfTask } from '@/lib/findings/spread/nearness-of-task';
import { speedOfTask } from '@/lib/findings/spread/speed-of-task';
import { spreadCounts } from '@/lib/findings/spread/spread-counts';
import type { SpreadTask } from '@/lib/findings/spread/types';
import type { SpeedOfSpread } from '@/lib/findings/types';
import type { Fips, Pair } from '@/lib/vocabulary/terms';
import { programmeOf } from './programme-of';
import { tasksOf } from './run-analysis';

/** A speed of spread with where it is stated to have begun. */
export interface StatedSpeed {
  finding: SpeedOfSpread;
  /** The county in words. */
  from: string;
}

/**
 * The speed of spread of a pair over the closed seasons, from a county in which it is known to have begun: computed anew,
 * since an analysis estimates the beginning with the rest. Private.
 *
 * @throws UserError where nothing of the pair was screened in a closed season, or the county is not of the region
 */
export async function speedFrom(
  db: StaffDatabase,
  { species, group, from }: Pair & { from: Fips },
): Promise<StatedSpeed> {
  const tasks = await tasksOf(db, await programmeOf(db));
  const task = tasks.find(
    (one): one is SpreadTask =>
      one.kind === 'spread' && one.species === species && one.group === group && one.design === null,
  );
  if (!task) {
    throw new UserError(
      'Nothing of that species and group was screened in a closed season.',
      'Close a season first, or choose another pair.',
    );
  }
  const { counties, countyNames, lon, lat } = task.ground;
  const at = counties.indexOf(from);
  if (at < 0) {
    throw new UserError(
      `${from} is no county of the region.`,
      'Give its FIPS code of five digits, as 31145.',
    );
  }
  const origin = { x: lon[at]!, y: lat[at]! };
  const shared = spreadCounts(task);
  const { p: nearnessP } = nearnessOfTask(task, shared);
  return { finding: speedOfTask(task, shared, { nearnessP, origin }), from: countyNames[at]! };
}
