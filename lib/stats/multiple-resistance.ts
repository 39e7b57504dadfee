import { checkLengths, StatsError } from './errors';

/** One entry for each population. Bit g of a mask stands for group g, of at most 30. */
export interface GroupMasks {
  tested: Int32Array;
  resistant: Int32Array;
  /** Season or any other class by which to count; one class where left out. */
  season?: ArrayLike<number>;
}

export interface MultipleResistance {
  season: number;
  groups: number;
  /** Populations tested for this many groups or more: the only ones that can show it. */
  tested: number;
  /** Of these, resistant to exactly, or at least, this many groups. */
  exactly: number;
  atLeast: number;
}

/**
 * How many populations are resistant to several groups at once, counted among those that were tested for so many.
 *
 * @returns for each season, ascending, a row for each number of groups from 1 to the most that any population was
 *   tested for in any season
 * @policy A population that was tested for fewer groups is missing, not free of multiple resistance. One that was
 *   tested for more has more chances to show k: shares of different k, or of seasons with different sets of groups,
 *   are of different populations; `tested` says of how many.
 * @throws StatsError `bad count` where a population is resistant to a group for which it was not tested
 * @source arithmetic; the denominator "tested for at least k" is common practice, no source
 * @cost O(populations · groups)
 */
export function multipleResistance(masks: GroupMasks): MultipleResistance[] {
  checkMasks(masks);
  const { tested, resistant, season } = masks;
  const most = tested.reduce((largest, mask) => Math.max(largest, bitCount(mask)), 0);
  const bySeason = new Map<number, MultipleResistance[]>();
  for (let i = 0; i < tested.length; i += 1) {
    const key = season ? season[i]! : 0;
    if (!bySeason.has(key)) bySeason.set(key, emptyRows(key, most));
    const rows = bySeason.get(key)!;
    const found = bitCount(resistant[i]!);
    for (let k = 1; k <= bitCount(tested[i]!); k += 1) {
      const row = rows[k - 1]!;
      row.tested += 1;
      if (found >= k) row.atLeast += 1;
      if (found === k) row.exactly += 1;
    }
  }
  return [...bySeason.keys()].sort((a, b) => a - b).flatMap((key) => bySeason.get(key)!);
}

/** Throws unless all arrays are of one length and resistant groups were tested. */
export function checkMasks({ tested, resistant, season }: GroupMasks): void {
  checkLengths(tested, resistant, 'Masks of tested and of resistant groups');
  if (season) checkLengths(tested, season, 'Masks and seasons');
  for (let i = 0; i < tested.length; i += 1) {
    if (tested[i]! < 0 || tested[i]! >= 1 << 30 || resistant[i]! & ~tested[i]!) {
      throw new StatsError(
        'bad count',
        `Population ${i}: got masks ${tested[i]} tested, ${resistant[i]} resistant; expected 30 bits at most, and ` +
          'no group resistant that was not tested.',
      );
    }
  }
}

/** How many groups a mask holds. */
export function bitCount(mask: number): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

function emptyRows(season: number, most: number): MultipleResistance[] {
  return Array.from({ length: most }, (_, at) => ({
    season,
    groups: at + 1,
    tested: 0,
    exactly: 0,
    atLeast: 0,
  }));
}
