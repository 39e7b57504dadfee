import { placeAt } from './circles';
import { sliceCounts } from './lanes';
import { likelihoodRatio } from './likelihood';
import { type NeededCounts, neededCounts, sizeTotals } from './needed-counts';
import type { ScanPlan, Slice } from './types';

/**
 * The log likelihood ratio of every circle of a plan's own counts, in its strongest direction and seasons.
 *
 * @param level ratios up to it are left out (0)
 * @policy Of equally strong seasons (to 1e-12) the earlier.
 * @cost O(places in all circles · slices · directions); 12 bytes for each place in a circle, however many the slices
 */
export function searchCircles(plan: ScanPlan, level: number): Searched {
  const totals = sizeTotals(plan);
  const searches = plan.directions.flatMap((direction) => {
    const ratio = likelihoodRatio(plan.model, totals, direction);
    const needed = neededCounts(ratio, totals, direction, level);
    const common = { direction, ratio, needed };
    return plan.slices.map((slice) => ({ ...common, slice, counts: sliceCounts(plan, slice) }));
  });
  const ratios = new Float64Array(plan.circles.order.length);
  const search = new Int32Array(ratios.length);
  searches.forEach((each, index) => {
    searchInto(ratios, search, plan, each, { level, index });
  });
  return { ratios, search, searches };
}

/** Ratios are the same that differ by less, relative to their size. */
export const SAME = 1e-12;

/** One direction, one slice. */
interface Search {
  direction: 'high' | 'low';
  ratio: (resistant: number, size: number) => number;
  needed: NeededCounts;
  slice: Slice;
  counts: Int32Array;
}

/** For each entry of the circles' order the largest ratio of a window that ends there, 0 for none, and its search. */
export interface Searched {
  ratios: Float64Array;
  search: Int32Array;
  searches: readonly Search[];
}

function searchInto(
  ratios: Float64Array,
  search: Int32Array,
  { circles: { order, offsets }, smallestTested }: ScanPlan,
  { direction, ratio, needed, slice, counts }: Search,
  { level, index }: { level: number; index: number },
): void {
  const high = direction === 'high';
  for (let centre = 0; centre + 1 < offsets.length; centre += 1) {
    let inside = 0;
    let count = 0;
    for (let at = offsets[centre]!; at < offsets[centre + 1]!; at += 1) {
      const place = placeAt(order, at);
      inside += slice.size[place]!;
      count += counts[place]!;
      const enough = needed.counts[(inside * needed.perSize) | 0]!;
      if (order[at]! < 0 || (high ? count < enough : count > enough) || inside < smallestTested) continue;
      const found = ratio(count, inside);
      if (found <= Math.max(level, ratios[at]!) * (1 + SAME)) continue;
      ratios[at] = found;
      search[at] = index;
    }
  }
}
