import { placeAt } from './circles';
import { windowRadius } from './radius';
import { SAME, type Searched, searchCircles } from './search-circles';
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
 *   seasons, then the lower centre. Windows up to a log likelihood ratio of 1, which no scan would call a cluster, are
 *   left out unless nothing is stronger.
 * @cost O(places in all circles · slices), and once more where nothing exceeds 1; 12 bytes for each place in a circle
 */
export function strongestWindows(plan: ScanPlan, most: number): PlanWindow[][] {
  const strong = searchCircles(plan, 1);
  let weak: Searched | undefined;
  return plan.shares.map((_, share) => {
    const found = chooseApart(plan, strong, share, most);
    if (found.length > 0) return found;
    weak ??= searchCircles(plan, 1e-9);
    return chooseApart(plan, weak, share, most);
  });
}

function chooseApart(plan: ScanPlan, found: Searched, share: number, most: number): PlanWindow[] {
  const { order, offsets, ends } = plan.circles;
  const taken = new Uint8Array(plan.circles.places.length);
  const reach = ends[share]!.slice();
  const chosen: PlanWindow[] = [];
  while (chosen.length < most) {
    const best = strongestWithin(plan, found, reach);
    if (!best) break;
    chosen.push(windowAt(plan, found, best));
    for (let at = offsets[best.centre]!; at <= best.at; at += 1) taken[placeAt(order, at)] = 1;
    reach.forEach((end, centre) => {
      let at = offsets[centre]!;
      while (at < end && taken[placeAt(order, at)] === 0) at += 1;
      reach[centre] = at;
    });
  }
  return chosen;
}

interface Circle {
  centre: number;
  at: number;
}

function strongestWithin(plan: ScanPlan, found: Searched, reach: Int32Array): Circle | null {
  let best: Circle | null = null;
  let least = 0;
  for (let centre = 0; centre < reach.length; centre += 1) {
    for (let at = plan.circles.offsets[centre]!; at < reach[centre]!; at += 1) {
      const ratio = found.ratios[at]!;
      if (ratio === 0 || ratio < least) continue;
      if (best && !isBefore(plan, found, { centre, at }, best)) continue;
      best = { centre, at };
      least = ratio * (1 - SAME);
    }
  }
  return best;
}

function isBefore(plan: ScanPlan, { ratios, search, searches }: Searched, a: Circle, b: Circle): boolean {
  const [stronger, other] = [ratios[a.at]!, ratios[b.at]!];
  if (Math.abs(stronger - other) > SAME * other) return stronger > other;
  const places = ({ centre, at }: Circle) => at - plan.circles.offsets[centre]!;
  const slice = ({ at }: Circle) => searches[search[at]!]!.slice;
  const order = [
    places(a) - places(b),
    windowRadius(plan, a.centre, a.at) - windowRadius(plan, b.centre, b.at),
    slice(a).from - slice(b).from,
    slice(a).to - slice(b).to,
    a.centre - b.centre,
  ];
  return (order.find((difference) => difference !== 0) ?? 0) < 0;
}

function windowAt(
  { circles: { order, offsets } }: ScanPlan,
  { ratios, search, searches }: Searched,
  { centre, at }: Circle,
): PlanWindow {
  const { slice, counts } = searches[search[at]!]!;
  let size = 0;
  let resistant = 0;
  for (let inner = offsets[centre]!; inner <= at; inner += 1) {
    size += slice.size[placeAt(order, inner)]!;
    resistant += counts[placeAt(order, inner)]!;
  }
  return { slice, centre, at, size, resistant, ratio: ratios[at]! };
}
