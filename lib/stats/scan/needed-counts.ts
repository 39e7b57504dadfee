import type { ScanPlan } from './types';

/** From which count on a window is to be looked at, by its size. */
export interface NeededCounts {
  /**
   * Entry b holds for sizes from b / perSize up to (b + 1) / perSize: the smallest count (`high`; all resistant + 1
   * where none will do), or the largest (`low`; −1 where none will do).
   */
  counts: Int32Array;
  perSize: number;
}

export interface SizeTotals {
  resistant: number;
  size: number;
  largest: number;
  whole: boolean;
}

/**
 * For every size of a window the count from which its likelihood ratio reaches a level. For a given size the ratio
 * grows with the count's distance from what is expected, and for a given count it falls as the size comes nearer, so
 * the table is one walk; with it a scan compares two integers for each window. It never asks for too much, and for
 * slightly too little where sizes are many or not whole: whoever passes has to be computed.
 *
 * @param ratio of `likelihoodRatio` for the same direction
 * @param totals all resistant, the size of everything, and the largest size of a window, and whether all sizes are whole numbers
 * @param level above 0
 * @cost O(entries + resistant) ratios, of at most 65,537 entries
 */
export function neededCounts(
  ratio: (resistant: number, size: number) => number,
  { resistant, size, largest, whole }: SizeTotals,
  direction: 'high' | 'low',
  level: number,
): NeededCounts {
  // A power of two, so that whole sizes of up to 65,536 in all have exact entries.
  const fitting = 2 ** Math.floor(Math.log2((whole ? 65_536 : 8_192) / size));
  const perSize = whole ? Math.min(1, fitting) : fitting;
  const counts = new Int32Array(Math.floor(largest * perSize) + 2);
  const enough = level * (1 - 1e-9);
  let count = direction === 'high' ? 0 : -1;
  for (let entry = 0; entry < counts.length; entry += 1) {
    if (direction === 'high') {
      const least = entry / perSize;
      while (count <= resistant && ratio(count, least) < enough) count += 1;
    } else {
      const most = Math.min(size, (entry + 1) / perSize);
      while (count < resistant && ratio(count + 1, most) >= enough) count += 1;
    }
    counts[entry] = count;
  }
  return { counts, perSize };
}

export function sizeTotals(plan: ScanPlan): SizeTotals {
  return {
    resistant: plan.totalResistant,
    size: plan.totalSize,
    largest: plan.largestSize,
    whole: plan.wholeSizes,
  };
}
