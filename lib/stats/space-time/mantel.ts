import { checkLengths, checkPermutations, StatsError } from '../errors';
import { Random } from '../random';
import { tailCounts } from '../tail-counts';
import { distanceBetween } from './distance-between';
import {
  type AddRow,
  addDistances,
  addEntries,
  addReciprocals,
  LANES,
  type Lanes,
  sumProducts,
} from './mantel-sums';
import { type StrataShuffle, sitesOf, strataShuffle } from './strata-shuffle';
import type { PermutationRun, SpaceTimePoints } from './types';

export interface Mantel {
  /** Pearson's correlation over all pairs, −1 … 1; null where one of the two is the same for all pairs. */
  r: number | null;
  /** (M + 1) / (R + 1) for a correlation at least, or at most, as large: in (0, 1]. 1 where r is null. */
  pGreater: number;
  pLess: number;
  /** Standard deviation of r over the permutations. */
  deviation: number;
  /** Finds that can change their time with one at another point (all items that can move, for two matrices). */
  movable: number;
}

/** Distances as they are, or 1 / (distance + constant), which weighs close pairs most. Constants > 0, in own units. */
export type Closeness = 'distance' | { space: number; time: number };

/**
 * Do the finds that are nearer in space lie nearer in time, over all distances at once? The regression of time on space
 * over pairs, with the times moved among the finds.
 *
 * @param strata as in `knox`: times move inside strata only
 * @param closeness default `distance`; with reciprocals the far pairs do not drown the near ones
 * @policy r > 0 is interaction either way. Blind to testing unless strata are given. All pairs count, so a few finds far
 *   away or long ago can rule r as distances. On the invented maps of `knox` it rejected 2–100 % without strata, 2–5 %
 *   within testing strata.
 * @throws StatsError `too few` for fewer than three finds; `bad argument`
 * @source Mantel 1967, Cancer Research 27:209–220 (from memory); (M + 1) / (R + 1): Phipson & Smyth 2010
 * @cost O(permutations · events²) time, 8 · events² bytes
 */
export function spaceTimeMantel(
  events: SpaceTimePoints,
  {
    closeness = 'distance',
    strata,
    ...run
  }: PermutationRun & { closeness?: Closeness; strata?: ArrayLike<number> },
): Mantel {
  const [inSpace, inTime] = closeness === 'distance' ? [null, null] : [closeness.space, closeness.time];
  checkConstants(inSpace, inTime);
  const between = distanceBetween(events);
  const arrangement = strataShuffle(events.time.length, strata);
  const { order } = arrangement;
  const times = Float64Array.from(order, (event) => events.time[event]!);
  return permute(
    {
      first: condense(order.length, (a, b) => scaled(between(order[a]!, order[b]!), inSpace)),
      second: condense(order.length, (a, b) => scaled(Math.abs(times[a]! - times[b]!), inTime)),
      labels: times,
      addRow: inTime === null ? addDistances : addReciprocals(inTime),
      movable: arrangement.movable(times, sitesOf(events.x, events.y, order)),
    },
    { ...run, ...arrangement },
  );
}

/**
 * The same for any two matrices of differences among the same items.
 *
 * @param first, second lower triangles by column (or upper ones by row), items · (items − 1) / 2 entries
 * @throws StatsError as above
 */
export function mantelTest(
  first: ArrayLike<number>,
  second: ArrayLike<number>,
  { strata, ...run }: PermutationRun & { strata?: ArrayLike<number> },
): Mantel {
  checkLengths(first, second, 'The two matrices');
  const items = Math.round((1 + Math.sqrt(1 + 8 * first.length)) / 2);
  if ((items * (items - 1)) / 2 !== first.length) {
    throw new StatsError(
      'bad argument',
      `Got ${first.length} entries; a triangle has items · (items − 1) / 2.`,
    );
  }
  const arrangement = strataShuffle(items, strata);
  const { order } = arrangement;
  const at = (i: number, j: number) => {
    const [low, high] = i < j ? [i, j] : [j, i];
    return low * items - (low * (low + 1)) / 2 + high - low - 1;
  };
  const table = Float64Array.from({ length: items * items }, (_, entry) => {
    const [i, j] = [Math.floor(entry / items), entry % items];
    return i === j ? 0 : second[at(i, j)]!;
  });
  return permute(
    {
      first: condense(items, (a, b) => first[at(order[a]!, order[b]!)]!),
      second: condense(items, (a, b) => second[at(order[a]!, order[b]!)]!),
      labels: Float64Array.from(order),
      addRow: addEntries(table, items),
      movable: arrangement.movable(order, order),
    },
    { ...run, ...arrangement },
  );
}

interface Pairing {
  /** Of each pair a < b, row by row; the second as it is in the data. */
  first: Float64Array;
  second: Float64Array;
  /** What is moved among the items. */
  labels: Float64Array;
  addRow: AddRow;
  movable: number;
}

function permute(
  { first, second, labels, addRow, movable }: Pairing,
  { permutations, seed, shuffle }: PermutationRun & StrataShuffle,
): Mantel {
  checkPermutations(permutations);
  if (labels.length < 3)
    throw new StatsError('too few', `Got ${labels.length} items; expected three at least.`);
  const scale = Math.sqrt(centre(first) * centre(second));
  if (!(scale > 0)) return { r: null, pGreater: 1, pLess: 1, deviation: 0, movable };
  // With `first` centred, the sum of products is the covariance, whatever the mean of the second.
  const observed = sumProducts(first, [labels, labels, labels, labels], addRow)[0]! / scale;
  const lanes: Lanes = [labels.slice(), labels.slice(), labels.slice(), labels.slice()];
  const random = new Random(seed);
  let sums: Float64Array = new Float64Array(LANES);
  let used = LANES;
  const tails = tailCounts({ observed, slack: 1e-12, permutations }, () => {
    if (used === LANES) {
      for (const lane of lanes) shuffle(lane, random);
      sums = sumProducts(first, lanes, addRow);
      used = 0;
    }
    used += 1;
    return sums[used - 1]! / scale;
  });
  const { pGreater, pLess, deviation } = tails;
  return { r: observed, pGreater, pLess, deviation, movable };
}

/** Takes the mean off, in place; the sum of squares that is left, 0 where only rounding is. */
function centre(values: Float64Array): number {
  let sum = 0;
  let size = 0;
  for (const value of values) {
    sum += value;
    size += value * value;
  }
  const mean = sum / values.length;
  let squares = 0;
  for (let i = 0; i < values.length; i += 1) {
    values[i]! -= mean;
    squares += values[i]! ** 2;
  }
  return squares > 1e-20 * size ? squares : 0;
}

function condense(items: number, value: (a: number, b: number) => number): Float64Array {
  const values = new Float64Array((items * (items - 1)) / 2);
  let at = 0;
  for (let a = 0; a < items; a += 1) {
    for (let b = a + 1; b < items; b += 1) {
      values[at] = value(a, b);
      at += 1;
    }
  }
  return values;
}

function scaled(distance: number, constant: number | null): number {
  return constant === null ? distance : 1 / (distance + constant);
}

function checkConstants(space: number | null, time: number | null): void {
  if ((space !== null && !(space > 0)) || (time !== null && !(time > 0))) {
    throw new StatsError('bad argument', `Got constants ${space}, ${time}; expected numbers > 0.`);
  }
}
