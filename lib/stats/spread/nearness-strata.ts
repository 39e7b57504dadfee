import { StatsError } from '../errors';
import type { AtRisk } from './types';

/**
 * What a new place is compared with: places at risk of the same season and the same class of how many were tested there
 * in it; of the same season; or all, which is naive and here for comparison only.
 */
export type NearnessStrata = 'season and tested' | 'season' | 'none';

/**
 * Classes of how many populations were tested, by their least number: 1, 2–3, 4 and more. Chances to find something
 * grow with the number, and under clustered testing much is tested beside places where much is tested; a single
 * population is the most frequent case and stands alone, doubling keeps the chances of a class within a factor of about two.
 */
export const TESTED_CLASSES: readonly number[] = [1, 2, 4];

/** A stratum of `stratumOf` taken apart. */
export function stratumParts(stratum: number, classes: readonly number[]): { season: number; class: number } {
  return { season: Math.floor(stratum / classes.length), class: stratum % classes.length };
}

/** A code for each row, `season row · classes + class`; season row or class 0 where it is not asked for. */
export function nearnessStrata(
  rows: AtRisk,
  strata: NearnessStrata,
  classes: readonly number[] = TESTED_CLASSES,
): Int32Array {
  const isRising = classes.every((least, k) => k === 0 || least > classes[k - 1]!);
  if (classes[0] !== 1 || !isRising) {
    throw new StatsError(
      'bad argument',
      `Got classes from ${classes.join(', ')}; expected rising ones from 1.`,
    );
  }
  return rows.season.map((season, row) => {
    if (strata === 'none') return 0;
    if (strata === 'season') return season * classes.length;
    let own = classes.length - 1;
    while (classes[own]! > rows.tested[row]!) own -= 1;
    return season * classes.length + own;
  });
}
