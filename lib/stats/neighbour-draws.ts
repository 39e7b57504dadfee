import type { Random } from './random';

export interface DrawCounts {
  /** For each place the draws whose sum is at least the observed one. */
  atLeast: Int32Array;
  /** For each place the draws whose sum is at most the observed one. */
  atMost: Int32Array;
}

/**
 * For each place i: of R draws of `degrees[i]` other places without replacement, how many have a sum of values at
 * least (at most) as large as `observed[i]`?
 *
 * All places share R random sequences of distinct places: the draw for i is the first of a sequence, i itself struck
 * out, which is exactly a draw from the others. So the sums of the first k are computed and sorted once for each
 * number of neighbours k, every place is answered by bisection, and only the few sequences that begin with i are
 * corrected. Each place's count has its exact distribution; counts of different places share their Monte Carlo error.
 *
 * @param values one for each place
 * @param degrees 1 … places − 1 for each place
 * @param slack sums that differ by no more count as equal
 * @cost O(R · K · D + places · log R) with K the largest and D the number of different degrees
 */
export function countNeighbourDraws(
  { values, degrees, observed, slack }: NeighbourSample,
  { permutations, random }: { permutations: number; random: Random },
): DrawCounts {
  const largest = degrees.reduce((a, b) => Math.max(a, b), 0);
  const sequences = drawSequences(values.length, largest + 1, permutations, random);
  const counts = { atLeast: new Int32Array(values.length), atMost: new Int32Array(values.length) };
  const sums = new Float64Array(permutations);
  for (let k = 1; k <= largest; k += 1) {
    const latest = sequences[k - 1]!;
    for (let r = 0; r < permutations; r += 1) sums[r]! += values[latest[r]!]!;
    if (!degrees.includes(k)) continue;
    const sorted = sums.toSorted();
    for (let i = 0; i < degrees.length; i += 1) {
      if (degrees[i] !== k) continue;
      counts.atLeast[i] = permutations - firstAtLeast(sorted, observed[i]! - slack);
      counts.atMost[i] = firstAbove(sorted, observed[i]! + slack);
    }
    strikeOutSelf(k, sums, sequences);
  }
  return counts;

  /** Where a sequence's first k hold a place of degree k itself, the place gives way to the next of the sequence. */
  function strikeOutSelf(k: number, sumOf: Float64Array, drawn: Int32Array[]): void {
    const next = drawn[k]!;
    for (let at = 0; at < k; at += 1) {
      const column = drawn[at]!;
      for (let r = 0; r < permutations; r += 1) {
        const i = column[r]!;
        if (degrees[i] !== k) continue;
        const wrong = sumOf[r]!;
        const right = wrong - values[i]! + values[next[r]!]!;
        const low = observed[i]! - slack;
        const high = observed[i]! + slack;
        counts.atLeast[i]! += Number(right >= low) - Number(wrong >= low);
        counts.atMost[i]! += Number(right <= high) - Number(wrong <= high);
      }
    }
  }
}

export interface NeighbourSample {
  values: Float64Array;
  degrees: Int32Array;
  observed: Float64Array;
  slack: number;
}

/** `sequences[p][r]`: the place at position p of sequence r; the places of one sequence are distinct. */
function drawSequences(places: number, length: number, permutations: number, random: Random): Int32Array[] {
  const sequences = Array.from({ length }, () => new Int32Array(permutations));
  const pool = Int32Array.from({ length: places }, (_, i) => i);
  for (let r = 0; r < permutations; r += 1) {
    for (let p = 0; p < length; p += 1) {
      const at = p + random.below(places - p);
      const place = pool[at]!;
      pool[at] = pool[p]!;
      pool[p] = place;
      sequences[p]![r] = place;
    }
  }
  return sequences;
}

function firstAtLeast(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function firstAbove(sorted: Float64Array, value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (sorted[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}
