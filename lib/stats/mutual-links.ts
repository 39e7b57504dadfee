import type { Weights } from './weights';

/** Each pair of neighbours once, with w_ij + w_ji: those of place i and a later one at `starts[i] … starts[i + 1] − 1`. */
export interface MutualLinks {
  starts: Int32Array;
  to: Int32Array;
  weight: Float64Array;
  /** Σ w_ij = Σ weight. */
  total: number;
}

/**
 * The pairs of neighbours of a map: half the products to sum for a symmetric statistic, in every order of the values.
 * A one-sided neighbourhood (k nearest) gives its pair the weight of the one side.
 * @cost O(links · log degree)
 */
export function mutualLinks({ places, offsets, neighbours, rowWeight }: Weights): MutualLinks {
  const later = Array.from({ length: places }, () => new Map<number, number>());
  let total = 0;
  for (let i = 0; i < places; i += 1) {
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) {
      const j = neighbours[at]!;
      const links = later[Math.min(i, j)]!;
      links.set(Math.max(i, j), (links.get(Math.max(i, j)) ?? 0) + rowWeight[i]!);
      total += rowWeight[i]!;
    }
  }
  const starts = new Int32Array(places + 1);
  later.forEach((links, i) => {
    starts[i + 1] = starts[i]! + links.size;
  });
  return {
    starts,
    to: Int32Array.from(later.flatMap((links) => [...links.keys()])),
    weight: Float64Array.from(later.flatMap((links) => [...links.values()])),
    total,
  };
}

/** Σ weight · z_i · z_j over the links. */
export function linkedProduct(z: Float64Array, { starts, to, weight }: MutualLinks): number {
  let total = 0;
  for (let i = 0, k = 0; i < z.length; i += 1) {
    const end = starts[i + 1]!;
    let sum = 0;
    for (; k < end; k += 1) sum += weight[k]! * z[to[k]!]!;
    total += z[i]! * sum;
  }
  return total;
}

/**
 * The same of two orders at once, into `out`: what a link is costs more to look up than to multiply, so two orders
 * together take two thirds of the time.
 */
export function linkedProducts(
  a: Float64Array,
  b: Float64Array,
  { starts, to, weight }: MutualLinks,
  out: Float64Array,
): void {
  let totalA = 0;
  let totalB = 0;
  for (let i = 0, k = 0; i < a.length; i += 1) {
    const end = starts[i + 1]!;
    let sumA = 0;
    let sumB = 0;
    for (; k < end; k += 1) {
      const j = to[k]!;
      const w = weight[k]!;
      sumA += w * a[j]!;
      sumB += w * b[j]!;
    }
    totalA += a[i]! * sumA;
    totalB += b[i]! * sumB;
  }
  out[0] = totalA;
  out[1] = totalB;
}

/** Σ weight · (z_i − z_j)² over the links, of two orders at once, into `out`. */
export function linkedSquares(
  a: Float64Array,
  b: Float64Array,
  { starts, to, weight }: MutualLinks,
  out: Float64Array,
): void {
  let totalA = 0;
  let totalB = 0;
  for (let i = 0, k = 0; i < a.length; i += 1) {
    const end = starts[i + 1]!;
    for (; k < end; k += 1) {
      const j = to[k]!;
      const w = weight[k]!;
      const differenceA = a[i]! - a[j]!;
      const differenceB = b[i]! - b[j]!;
      totalA += w * differenceA * differenceA;
      totalB += w * differenceB * differenceB;
    }
  }
  out[0] = totalA;
  out[1] = totalB;
}
