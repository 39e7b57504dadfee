import { StatsError } from '../errors';
import { deriveSeed, Random } from '../random';
import { type Allocate, allocation } from './allocate';
import { laneCount, packLanes } from './lanes';
import { likelihoodRatio } from './likelihood';
import { neededCounts, sizeTotals } from './needed-counts';
import { sweep } from './sweep';
import type { ScanPlan } from './types';

/** Replicates `from` … `to` − 1 of a seed. */
export interface ReplicateRange {
  seed: number;
  from: number;
  to: number;
}

/**
 * Log likelihood ratio of the strongest window of replicates `from` … `to` − 1 of the null hypothesis, for each share
 * of the plan (0 where no window stands out).
 *
 * Every replicate has a seed of its own, so a range gives the same numbers whether it is computed whole or in parts,
 * here or on several threads. A window is computed only where its count reaches a level that most maxima exceed;
 * a replicate without such a window waits, and is looked at again from a lower level. The level decides how long it
 * takes and never what comes out.
 *
 * @param range seed from 0 to 2^53 − 1 and 0 ≤ from ≤ to, whole numbers; else `bad argument`
 * @cost O(places in all circles · slices · replicates / 16)
 */
export function nullMaxima(plan: ScanPlan, range: ReplicateRange): Float64Array[] {
  return maximaOf(plan, allocation(plan), range);
}

/**
 * The same of any other kind of replicate, as one with a planted cluster.
 * @param allocate fills the counts of place × season with one replicate; their total is the plan's
 */
export function maximaOf(
  plan: ScanPlan,
  allocate: Allocate,
  { seed, from, to }: ReplicateRange,
): Float64Array[] {
  checkRange(seed, from, to);
  const lanes = laneCount(plan.totalResistant);
  const dataSets = Array.from({ length: lanes }, () => new Int32Array(plan.resistant.length));
  const maxima = plan.shares.map(() => new Float64Array(to - from));
  const open = openShares(plan);
  const waiting = Array.from({ length: to - from }, (_, i) => from + i);
  let level = FIRST_LEVEL;
  while (waiting.length > 0) {
    const batch = waiting.splice(0, lanes);
    batch.forEach((replicate, lane) => {
      allocate(new Random(deriveSeed(seed, `scan replicate ${replicate}`)), dataSets[lane]!);
    });
    const best = strongest(plan, dataSets.slice(0, batch.length), level);
    const settled = batch.map(
      (_, lane) => level === LAST_LEVEL || open.every((share) => best[share]![lane]! >= level),
    );
    batch.forEach((replicate, lane) => {
      if (!settled[lane]) waiting.push(replicate);
      else for (const [share, each] of best.entries()) maxima[share]![replicate - from] = each[lane]!;
    });
    level = nextLevel(level, settled);
  }
  return maxima;
}

function checkRange(seed: number, from: number, to: number): void {
  const whole = [seed, from, to].every((each) => Number.isSafeInteger(each) && each >= 0);
  if (!(whole && from <= to)) {
    throw new StatsError(
      'bad argument',
      `Got seed ${seed} and replicates from ${from} to ${to}; expected whole numbers ≥ 0 in this order.`,
    );
  }
}

/** About where the maxima of large data sets begin. */
const FIRST_LEVEL = 4;
/** Nothing that is told apart from 0. */
const LAST_LEVEL = 1e-9;

/** The shares that hold any window; at the others there is nothing to wait for. */
function openShares({ circles, shares, totalSize, smallestTested }: ScanPlan): number[] {
  return [...shares.keys()].filter((share) => {
    const hasCircle = circles.ends[share]!.some((end, centre) => end > circles.offsets[centre]!);
    return hasCircle && smallestTested <= shares[share]! * totalSize;
  });
}

/** Such that few of a batch have to wait: a high level saves computing windows, a low one saves second looks. */
function nextLevel(level: number, settled: readonly boolean[]): number {
  const missed = settled.filter((each) => !each).length;
  if (missed > settled.length / 8) return level < 0.1 ? LAST_LEVEL : 0.75 * level;
  return missed === 0 && level !== LAST_LEVEL ? 1.05 * level : level;
}

/** For each share and data set the largest ratio, where one reaches the level. */
function strongest(plan: ScanPlan, dataSets: readonly Int32Array[], level: number): Float64Array[] {
  const { circles, smallestTested } = plan;
  const totals = sizeTotals(plan);
  const best = plan.shares.map(() => new Float64Array(dataSets.length));
  for (const direction of plan.directions) {
    const ratio = likelihoodRatio(plan.model, totals, direction);
    const needed = neededCounts(ratio, totals, direction, level);
    for (const slice of plan.slices) {
      const lanes = packLanes(dataSets, slice, plan);
      sweep(circles, slice.size, lanes, needed, direction, (lane, centre, at, inside, count) => {
        if (lane >= dataSets.length || inside < smallestTested) return;
        const found = ratio(count, inside);
        for (let share = 0; share < best.length; share += 1) {
          if (at < circles.ends[share]![centre]! && found > best[share]![lane]!) best[share]![lane] = found;
        }
      });
    }
  }
  return best;
}
