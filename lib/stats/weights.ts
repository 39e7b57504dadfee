import { StatsError } from './errors';

/** `binary`: each neighbour counts 1. `row`: the neighbours of a place share the weight 1. */
export type WeightStyle = 'binary' | 'row';

/**
 * Neighbour weights as compressed rows: the neighbours of place i are `neighbours[offsets[i]] … [offsets[i + 1] − 1]`,
 * ascending, each with the weight `rowWeight[i]` (both styles are even inside a row; 0 where a place is isolated).
 */
export interface Weights {
  readonly places: number;
  readonly style: WeightStyle;
  readonly offsets: Int32Array;
  readonly neighbours: Int32Array;
  readonly rowWeight: Float64Array;
  /** Places without a neighbour. */
  readonly isolated: number;
}

/**
 * @param lists for each place the indices of its neighbours, in any order
 * @throws StatsError `bad argument` for an index out of range, a place beside itself, or a neighbour named twice
 */
export function buildWeights(lists: readonly (readonly number[])[], style: WeightStyle): Weights {
  const offsets = new Int32Array(lists.length + 1);
  const rowWeight = new Float64Array(lists.length);
  let isolated = 0;
  lists.forEach((list, i) => {
    offsets[i + 1] = offsets[i]! + list.length;
    if (list.length === 0) isolated += 1;
    else rowWeight[i] = style === 'row' ? 1 / list.length : 1;
  });
  const neighbours = new Int32Array(offsets[lists.length]!);
  lists.forEach((list, i) => {
    const sorted = [...list].sort((a, b) => a - b);
    sorted.forEach((j, at) => {
      if (!(Number.isInteger(j) && j >= 0 && j < lists.length && j !== i && j !== sorted[at - 1])) {
        throw new StatsError(
          'bad argument',
          `Place ${i} has the neighbour ${j}; expected other places of 0 … ${lists.length - 1}, each named once.`,
        );
      }
    });
    neighbours.set(sorted, offsets[i]);
  });
  return { places: lists.length, style, offsets, neighbours, rowWeight, isolated };
}

/**
 * The places that a test of likeness among neighbours compares.
 * @throws StatsError `too few` where no place has a neighbour
 */
export function placesCompared({ places, isolated }: Weights): number {
  if (places - isolated < 2)
    throw new StatsError('too few', 'No place has a neighbour, so nothing can be compared.');
  return places - isolated;
}

/** Throws `isolated` where a place has no neighbour, for tests that need one of each. */
export function refuseIsolated({ places, isolated }: Weights): void {
  if (isolated > 0) {
    throw new StatsError(
      'isolated',
      `${isolated} of ${places} places have no neighbour: leave them out first, and count them.`,
    );
  }
}

/** Number of neighbours of place i. */
export function degree({ offsets }: Weights, i: number): number {
  return offsets[i + 1]! - offsets[i]!;
}

/** For each place the sum of a value over its neighbours. */
export function neighbourSums({ places, offsets, neighbours }: Weights, values: Float64Array): Float64Array {
  const sums = new Float64Array(places);
  for (let i = 0; i < places; i += 1) {
    let sum = 0;
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) sum += values[neighbours[at]!]!;
    sums[i] = sum;
  }
  return sums;
}
