import { checkPermutations } from '../errors';
import { Random } from '../random';
import { type ClosePairs, closePairs, firstWithin } from './close-pairs';
import { distanceBetween } from './distance-between';
import { checkGrid, knoxCells } from './knox-cells';
import { sitesOf, strataShuffle } from './strata-shuffle';
import type { KnoxCell, KnoxGrid, PermutationRun, SpaceTimePoints } from './types';

export interface Knox {
  /** Distance by lag, lag last. */
  cells: KnoxCell[];
  /** The smallest adjusted p: of “no interaction at any distance and lag”. */
  p: number;
  events: number;
  /** Events that can change their time with one at another point in a permutation. With none all p are 1. */
  movable: number;
}

/**
 * Do events that are close in space tend to be close in time, beyond what their places and times explain by themselves?
 * Counts pairs close in both, for several distances and lags at once, and moves the times among the events.
 *
 * @param events one for each find
 * @param strata times move inside strata only. Give places that were tested in the same seasons the same code
 *   (`testingStrata`): then no permutation puts a find where nothing was tested. Without strata, testing that moves from
 *   place to place, or comes in batches, looks like spread.
 * @policy Close is at most the limit. Distance 0 is the same place: two finds there are a close pair.
 *   A steady hot spot is no interaction. Adjusted for the grid, not for other maps. On invented maps without interaction
 *   (7 × 7 places, 8 seasons, 400 maps, 5 %) it rejected, without strata: 43 % where half of place × season was tested
 *   in batches of 1 to 4, 100 % where testing moved; within testing strata: 0.5–2.3 %, too careful, for batches scatter.
 *   Where places seldom share a pattern of testing few finds are movable (18 of 115) and a front was found in 44 % of maps
 *   only, in 100 % where all were tested. Then use `knoxAmongTested`.
 * @throws StatsError `too few` for fewer than two events; `bad argument`
 * @source Knox 1964, British Journal of Preventive and Social Medicine 18:17–24; permutation of times: Mantel 1967,
 *   Cancer Research 27:209–220 (both from memory); (M + 1) / (R + 1): Phipson & Smyth 2010, Statistical Applications in
 *   Genetics and Molecular Biology 9(1) 39
 * @cost O(events² + permutations · (events + pairs within the largest distance)) time, (different times)² bytes
 */
export function knox(
  events: SpaceTimePoints,
  grid: KnoxGrid,
  { permutations, seed, strata }: PermutationRun & { strata?: ArrayLike<number> },
): Knox {
  checkPermutations(permutations);
  checkGrid(grid);
  const distance = distanceBetween(events);
  const { order, shuffle, movable } = strataShuffle(events.time.length, strata);
  const lags = grid.lags.length;
  const pairs = closePairs(order.length, (a, b) => {
    const within = firstWithin(grid.distances, distance(order[a]!, order[b]!));
    return within < 0 ? -1 : within * (lags + 1);
  });
  const { codes, steps, classOf } = lagClasses(
    Float64Array.from(order, (event) => events.time[event]!),
    grid.lags,
  );
  const cells = grid.distances.length * lags;
  const counts = new Int32Array((permutations + 1) * cells);
  const random = new Random(seed);
  const inClass = new Int32Array(grid.distances.length * (lags + 1));
  for (let r = 0; r <= permutations; r += 1) {
    if (r > 0) shuffle(codes, random);
    countPairs(pairs, { codes, steps, classOf }, inClass.fill(0));
    for (let cell = 0; cell < cells; cell += 1)
      counts[r * cells + cell] = inClass[cell + Math.floor(cell / lags)]!;
  }
  const found = knoxCells(counts, grid);
  return {
    cells: found,
    p: Math.min(...found.map(({ adjusted }) => adjusted)),
    events: order.length,
    movable: movable(codes, sitesOf(events.x, events.y, order)),
  };
}

interface LagClasses {
  /** For each event the rank of its time among the different times. */
  codes: Int32Array;
  steps: number;
  /** For each two ranks the first lag that holds them both, the number of lags where none does. */
  classOf: Uint8Array;
}

/** A table in place of comparisons, which a processor guesses wrong. */
function lagClasses(times: Float64Array, lags: readonly number[]): LagClasses {
  const different = Float64Array.from(new Set(times)).sort();
  const rank = new Map([...different].map((time, at) => [time, at]));
  const steps = different.length;
  const classOf = new Uint8Array(steps * steps);
  for (let a = 0; a < steps; a += 1) {
    for (let b = 0; b < steps; b += 1) {
      const within = firstWithin(lags, Math.abs(different[a]! - different[b]!));
      classOf[a * steps + b] = within < 0 ? lags.length : within;
    }
  }
  return { codes: Int32Array.from(times, (time) => rank.get(time)!), steps, classOf };
}

/** The last class of each distance takes the pairs that no lag holds. */
function countPairs(
  { offsets, others, classes }: ClosePairs,
  { codes, steps, classOf }: LagClasses,
  counts: Int32Array,
): void {
  let at = 0;
  for (let i = 0; i < codes.length; i += 1) {
    const row = codes[i]! * steps;
    for (const end = offsets[i + 1]!; at < end; at += 1) {
      counts[classes[at]! + classOf[row + codes[others[at]!]!]!]! += 1;
    }
  }
}
