import { sliceCounts } from './lanes';
import { likelihoodRatio } from './likelihood';
import { type NeededCounts, neededCounts, sizeTotals } from './needed-counts';
import { windowRadius } from './radius';
import type { ScanPlan, Slice } from './types';

/** A window of a plan: the circle of `centre` up to `order[at]`, in the seasons of a slice. */
export interface PlanWindow {
  slice: Slice;
  centre: number;
  at: number;
  size: number;
  resistant: number;
  ratio: number;
}

/**
 * For each share the strongest window of the data, then each the strongest that shares no place with those before.
 *
 * @param most at most so many at each share
 * @policy Of equally strong windows (to 1e-12) the one with fewer places, then the smaller radius, then the earlier
 *   seasons, then the lower centre. Windows below a log likelihood ratio of 1, which no scan would call a cluster, are
 *   left out unless nothing is stronger.
 * @cost O(places in all circles · slices), and once more where nothing reaches 1
 */
export function strongestWindows(plan: ScanPlan, most: number): PlanWindow[][] {
  const strong = records(plan, 1);
  let weak: PlanWindow[] | undefined;
  return plan.shares.map((_, share) => {
    const found = apart(plan, strong, share, most);
    if (found.length > 0) return found;
    weak ??= records(plan, 1e-9);
    return apart(plan, weak, share, most);
  });
}

/** Windows stronger than all smaller ones around the same centre: whatever ends a circle early, the best is one. */
function records(plan: ScanPlan, level: number): PlanWindow[] {
  const totals = sizeTotals(plan);
  const windows: PlanWindow[] = [];
  for (const direction of plan.directions) {
    const ratio = likelihoodRatio(plan.model, totals, direction);
    const needed = neededCounts(ratio, totals, direction, level);
    for (const slice of plan.slices) addRecords(plan, slice, { direction, ratio, needed, level }, windows);
  }
  return windows;
}

function addRecords(
  plan: ScanPlan,
  slice: Slice,
  { direction, ratio, needed, level }: Search,
  windows: PlanWindow[],
): void {
  const { order, offsets } = plan.circles;
  const counts = sliceCounts(plan, slice);
  const high = direction === 'high';
  for (let centre = 0; centre + 1 < offsets.length; centre += 1) {
    let inside = 0;
    let count = 0;
    let record = level;
    for (let at = offsets[centre]!; at < offsets[centre + 1]!; at += 1) {
      const place = placeAt(order, at);
      inside += slice.size[place]!;
      count += counts[place]!;
      const enough = needed.counts[(inside * needed.perSize) | 0]!;
      if (order[at]! < 0 || (high ? count < enough : count > enough) || inside < plan.smallestTested)
        continue;
      const found = ratio(count, inside);
      if (found <= record * (1 + SAME)) continue;
      record = found;
      windows.push({ slice, centre, at, size: inside, resistant: count, ratio: found });
    }
  }
}

interface Search {
  direction: 'high' | 'low';
  ratio: (resistant: number, size: number) => number;
  needed: NeededCounts;
  level: number;
}

const SAME = 1e-12;

function apart(plan: ScanPlan, windows: readonly PlanWindow[], share: number, most: number): PlanWindow[] {
  const { order, offsets, ends } = plan.circles;
  const taken = new Uint8Array(plan.circles.places.length);
  const reach = ends[share]!.slice();
  const chosen: PlanWindow[] = [];
  while (chosen.length < most) {
    let best: PlanWindow | undefined;
    for (const window of windows) {
      if (window.at < reach[window.centre]! && (!best || isBefore(plan, window, best))) best = window;
    }
    if (!best) break;
    chosen.push(best);
    for (let at = offsets[best.centre]!; at <= best.at; at += 1) taken[placeAt(order, at)] = 1;
    reach.forEach((end, centre) => {
      let at = offsets[centre]!;
      while (at < end && taken[placeAt(order, at)] === 0) at += 1;
      reach[centre] = at;
    });
  }
  return chosen;
}

function isBefore(plan: ScanPlan, a: PlanWindow, b: PlanWindow): boolean {
  if (Math.abs(a.ratio - b.ratio) > SAME * b.ratio) return a.ratio > b.ratio;
  const places = ({ centre, at }: PlanWindow) => at - plan.circles.offsets[centre]!;
  const order = [
    places(a) - places(b),
    windowRadius(plan, a.centre, a.at) - windowRadius(plan, b.centre, b.at),
    a.slice.from - b.slice.from,
    a.slice.to - b.slice.to,
    a.centre - b.centre,
  ];
  return (order.find((difference) => difference !== 0) ?? 0) < 0;
}

function placeAt(order: Int32Array, at: number): number {
  return order[at]! < 0 ? ~order[at]! : order[at]!;
}
