import type { Random } from './random';

/** For each place, how many of the draws that are not its own are as extreme. */
export interface DrawCounts {
  /** The draws whose sum is at least the observed one. */
  atLeast: Int32Array;
  /** The draws whose sum is at most the observed one. */
  atMost: Int32Array;
}

export interface NeighbourSample {
  /** One for each place. */
  values: Float64Array;
  /** For each place the number of values in its sum: 1 … places − 1 among `others`, 1 … places among `all`. */
  degrees: Int32Array;
  /** For each place the sum that was seen. */
  observed: Float64Array;
  /** Sums that differ by no more count as equal. */
  slack: number;
  /** Whom a place's sum is drawn from: the other places (default), or all of them, itself too. */
  from?: 'others' | 'all';
}

/**
 * For each place i: of R draws of `degrees[i]` places without replacement, how many have a sum of values at least (at
 * most) as large as `observed[i]`?
 *
 * All places share R random sequences of distinct places: the draw for i is the first of a sequence, i itself struck
 * out where it may not be drawn, which is exactly a draw from the others. So a sequence's sum of the first k answers
 * all places with k neighbours at once, and only the few places that the sequence begins with are corrected. Each
 * place's count has its exact distribution; counts of different places share their Monte Carlo error.
 *
 * @cost O(R · K + places · log places) time with K the largest degree, O(places) memory, however many draws
 */
export function countNeighbourDraws(
  sample: NeighbourSample,
  { permutations, random }: { permutations: number; random: Random },
): DrawCounts {
  const { values, degrees, from = 'others' } = sample;
  const places = values.length;
  const largest = degrees.reduce((a, b) => Math.max(a, b), 0);
  const bounds = boundsByDegree(sample, largest);
  const counts = { atLeast: new Int32Array(places), atMost: new Int32Array(places) };
  const length = from === 'others' ? largest + 1 : largest;
  const pool = Int32Array.from({ length: places }, (_, i) => i);
  const sums = new Float64Array(length + 1);
  for (let r = 0; r < permutations; r += 1) {
    for (let at = 0; at < length; at += 1) {
      const other = at + random.below(places - at);
      const place = pool[other]!;
      pool[other] = pool[at]!;
      pool[at] = place;
      sums[at + 1] = sums[at]! + values[place]!;
    }
    for (const bound of bounds) countSum(bound, sums[bound.degree]!);
    if (from === 'others') strikeOutSelf(sample, pool, sums, counts);
  }
  for (const bound of bounds) readCounts(bound, permutations, counts);
  return counts;
}

/**
 * The bounds of all places of one degree, ascending: a sum is counted once, by how many bounds it reaches. A grid of
 * even cells tells which few bounds to compare it with.
 */
interface Bounds {
  degree: number;
  values: Float64Array;
  reached: Int32Array;
  /** `first[c]`: the bounds before cell c. */
  first: Int32Array;
  perCell: number;
  /** For each of `places` the position of its two bounds. */
  places: Int32Array;
  low: Int32Array;
  high: Int32Array;
}

function boundsByDegree({ degrees, observed, slack }: NeighbourSample, largest: number): Bounds[] {
  const groups: number[][] = Array.from({ length: largest + 1 }, () => []);
  degrees.forEach((degree, i) => {
    groups[degree]!.push(i);
  });
  return groups.flatMap((group, degree) =>
    degree > 0 && group.length > 0 ? [gridOf(degree, group, observed, slack)] : [],
  );
}

function gridOf(degree: number, group: readonly number[], observed: Float64Array, slack: number): Bounds {
  const lows = group.map((i) => observed[i]! - slack);
  // “More than” is “at least the next number”, so that one comparison serves for both bounds.
  const highs = group.map((i) => nextUp(observed[i]! + slack));
  const values = Float64Array.from(new Set([...lows, ...highs])).sort();
  const position = new Map([...values].map((value, at) => [value, at]));
  const cells = 4 * values.length;
  const perCell = (cells - 1) / (values.at(-1)! - values[0]!);
  const bounds = {
    degree,
    values,
    reached: new Int32Array(values.length + 1),
    first: new Int32Array(cells + 1),
    perCell: Number.isFinite(perCell) ? perCell : 0,
    places: Int32Array.from(group),
    low: Int32Array.from(lows, (value) => position.get(value)!),
    high: Int32Array.from(highs, (value) => position.get(value)!),
  };
  for (const value of values) bounds.first[cellOf(bounds, value) + 1]! += 1;
  for (let cell = 0; cell < cells; cell += 1) bounds.first[cell + 1]! += bounds.first[cell]!;
  return bounds;
}

/** Grows with the value, also in floating point: a bound in an earlier cell is reached, one in a later cell is not. */
function cellOf({ values, perCell }: Bounds, value: number): number {
  return ((value - values[0]!) * perCell) | 0;
}

function countSum(bounds: Bounds, sum: number): void {
  const { values, reached, first } = bounds;
  const last = values.length - 1;
  if (sum < values[0]!) reached[0]! += 1;
  else if (sum >= values[last]!) reached[last + 1]! += 1;
  else {
    const cell = cellOf(bounds, sum);
    let low = first[cell]!;
    let high = first[cell + 1]!;
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (values[middle]! <= sum) low = middle + 1;
      else high = middle;
    }
    reached[low]! += 1;
  }
}

/** Where the draw for a place would hold the place itself, that gives way to the next of the sequence. */
function strikeOutSelf(
  { values, degrees, observed, slack }: NeighbourSample,
  sequence: Int32Array,
  sums: Float64Array,
  counts: DrawCounts,
): void {
  for (let at = 0; at < sums.length - 2; at += 1) {
    const i = sequence[at]!;
    const degree = degrees[i]!;
    if (at >= degree) continue;
    const wrong = sums[degree]!;
    const right = wrong - values[i]! + values[sequence[degree]!]!;
    const low = observed[i]! - slack;
    const high = observed[i]! + slack;
    counts.atLeast[i]! += Number(right >= low) - Number(wrong >= low);
    counts.atMost[i]! += Number(right <= high) - Number(wrong <= high);
  }
}

function readCounts(
  { places, reached, low, high }: Bounds,
  permutations: number,
  { atLeast, atMost }: DrawCounts,
): void {
  // From here on: of how many draws has the sum not reached bound b?
  for (let b = 1; b < reached.length; b += 1) reached[b]! += reached[b - 1]!;
  places.forEach((i, at) => {
    atLeast[i]! += permutations - reached[low[at]!]!;
    atMost[i]! += reached[high[at]!]!;
  });
}

/** The smallest number above a finite one. */
function nextUp(value: number): number {
  if (value === 0) return Number.MIN_VALUE;
  const number = new Float64Array([value]);
  const bits = new BigInt64Array(number.buffer);
  bits[0]! += value > 0 ? 1n : -1n;
  return number[0]!;
}
