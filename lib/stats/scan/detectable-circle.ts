import { StatsError } from '../errors';
import type { Allocate } from './allocate';
import { placeAt } from './circles';
import { maximaOf } from './null-maxima';
import { windowRadius } from './radius';
import type { ScanPlan } from './types';

/** The smallest cluster that a scan would mostly have found. */
export interface DetectableCircle {
  /** Median over the planted circles. */
  tested: number;
  places: number;
  radius: number;
  /** Share of resistant that was planted inside. */
  shareInside: number;
  /** Part of the planted circles that were found, at least `power` of the options. */
  found: number;
}

export interface DetectableOptions {
  /** Level of the Monte Carlo p at which a circle counts as found, as 0.05. */
  level: number;
  /** Part of the planted circles that have to be found, as 0.8. */
  power: number;
  /** Maps with a planted circle for each size. */
  replicates: number;
  seed: number;
}

/** Parts of all tested that a planted circle holds, looked at from the smallest on. */
const SIZES = [0.02, 0.04, 0.07, 0.1, 0.15, 0.2, 0.3, 0.4];

/**
 * How large would a cluster have to be for this testing to find it? Circles around random places are planted, in which the
 * share of resistant lies halfway between that of the whole map and all; the total of resistant stays what it is, so the
 * replicates of the null hypothesis hold for the planted maps too. The answer is the smallest size at which the scan
 * finds enough of them.
 *
 * @param plan of a Bernoulli scan of one season, in circles that may hold half of the tested
 * @param nullMaxima of the plan's first share, as from `nullMaxima`
 * @returns null where no size that the total of resistant allows is found often enough
 * @policy “Found” is that some circle stands out, not that it is the planted one. A circle may only be planted where its
 *   resistant are fewer than all of the map.
 * @throws StatsError `bad argument` for another plan, or replicates too few for the level
 * @source power by simulation; the planted form is our own
 * @cost as `nullMaxima` for at most four times `replicates` maps
 */
export function detectableCircle(
  plan: ScanPlan,
  nullMaxima: Float64Array,
  { level, power, replicates, seed }: DetectableOptions,
): DetectableCircle | null {
  if (plan.allocation !== 'among tested' || plan.seasons !== 1)
    throw new StatsError('bad argument', 'Power is simulated for a Bernoulli scan of one season only.');
  const critical = criticalRatio(nullMaxima, level);
  const share = plan.totalResistant / plan.totalSize;
  const shareInside = (1 + share) / 2;
  const sizes = SIZES.map((size) => size * plan.totalSize).filter(
    (size) => size * shareInside < plan.totalResistant,
  );
  const tryOut = (size: number): DetectableCircle | null => {
    const circles = circlesOf(plan, size);
    if (circles.length === 0) return null;
    const range = { seed, from: 0, to: replicates };
    const [maxima] = maximaOf(plan, plant(plan, circles, shareInside), range);
    const found = maxima!.filter((ratio) => ratio > critical).length / replicates;
    return found >= power ? { ...middle(circles), shareInside, found } : null;
  };
  // What is found at one size is found at the larger ones too, so the sizes are halved.
  let [low, high] = [0, sizes.length];
  let smallest: DetectableCircle | null = null;
  while (low < high) {
    const at = (low + high) >>> 1;
    const tried = tryOut(sizes[at]!);
    if (tried) [smallest, high] = [tried, at];
    else low = at + 1;
  }
  return smallest;
}

/** A ratio above it has p ≤ level. */
function criticalRatio(nullMaxima: Float64Array, level: number): number {
  const allowed = Math.floor(level * (nullMaxima.length + 1) + 1e-9) - 1;
  if (!(allowed >= 0 && allowed < nullMaxima.length))
    throw new StatsError(
      'bad argument',
      `${nullMaxima.length} replicates cannot reach the level ${level}; use at least ${Math.ceil(1 / level) - 1}.`,
    );
  return (
    Float64Array.from(nullMaxima)
      .sort()
      .at(-1 - allowed)! *
    (1 + 1e-9)
  );
}

interface Circle {
  places: Int32Array;
  tested: number;
  radius: number;
}

/** Around each place the smallest circle with at least so many tested; no circle where half of all are fewer. */
function circlesOf(plan: ScanPlan, least: number): Circle[] {
  const { circles, tested } = plan;
  return Array.from(circles.places.keys()).flatMap((centre) => {
    const start = circles.offsets[centre]!;
    const end = circles.ends[0]![centre]!;
    let inside = 0;
    for (let at = start; at < end; at += 1) {
      inside += tested[placeAt(circles.order, at)]!;
      if (inside < least || circles.order[at]! < 0) continue;
      const places = circles.order.slice(start, at + 1).map((_, i) => placeAt(circles.order, start + i));
      return [{ places, tested: inside, radius: windowRadius(plan, centre, at) }];
    }
    return [];
  });
}

function plant(plan: ScanPlan, circles: readonly Circle[], shareInside: number): Allocate {
  const { tested, totalSize, totalResistant } = plan;
  const isInside = new Uint8Array(tested.length);
  return (random, counts) => {
    const circle = circles[random.below(circles.length)]!;
    isInside.fill(0);
    for (const place of circle.places) isInside[place] = 1;
    let drawn = 0;
    for (let i = 0; i < circle.tested; i += 1) drawn += Number(random.uniform() < shareInside);
    const outside = totalSize - circle.tested;
    const inside = Math.min(Math.max(drawn, totalResistant - outside), totalResistant);
    counts.fill(0);
    // Who of the tested is resistant: each in turn by what is still wanted of those left (Fan, Muller & Rezucha 1962).
    const left = [outside, circle.tested];
    const wanted = [totalResistant - inside, inside];
    for (let place = 0; place < tested.length; place += 1) {
      const side = isInside[place]!;
      for (let i = 0; i < tested[place]!; i += 1) {
        if (random.uniform() * left[side]! < wanted[side]!) {
          counts[place]! += 1;
          wanted[side]! -= 1;
        }
        left[side]! -= 1;
      }
    }
  };
}

function middle(circles: readonly Circle[]): Pick<DetectableCircle, 'tested' | 'places' | 'radius'> {
  const median = (numbers: number[]) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)]!;
  return {
    tested: median(circles.map(({ tested }) => tested)),
    places: median(circles.map(({ places }) => places.length)),
    radius: median(circles.map(({ radius }) => radius)),
  };
}
