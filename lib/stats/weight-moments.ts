import type { Weights } from './weights';

/** S0 = Σ w_ij, S1 = ½ Σ (w_ij + w_ji)², S2 = Σ_i (Σ_j w_ij + Σ_j w_ji)². */
export interface WeightMoments {
  s0: number;
  s1: number;
  s2: number;
}

/**
 * The sums of weights that the variances of Moran's index need; neighbourhood need not be mutual.
 * @source Cliff & Ord 1981, Spatial Processes, p. 19 (from memory)
 * @cost O(links · log degree)
 */
export function weightMoments(weights: Weights): WeightMoments {
  const { places, offsets, neighbours, rowWeight } = weights;
  const columnSum = new Float64Array(places);
  let s0 = 0;
  let s1 = 0;
  for (let i = 0; i < places; i += 1) {
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) {
      const j = neighbours[at]!;
      s0 += rowWeight[i]!;
      columnSum[j]! += rowWeight[i]!;
      // A mutual link is met from both ends; a one-sided one stands for both cells here.
      if (isNeighbour(weights, j, i)) s1 += (rowWeight[i]! + rowWeight[j]!) ** 2 / 2;
      else s1 += rowWeight[i]! ** 2;
    }
  }
  let s2 = 0;
  for (let i = 0; i < places; i += 1) {
    s2 += ((offsets[i + 1]! - offsets[i]!) * rowWeight[i]! + columnSum[i]!) ** 2;
  }
  return { s0, s1, s2 };
}

function isNeighbour({ offsets, neighbours }: Weights, i: number, j: number): boolean {
  let low = offsets[i]!;
  let high = offsets[i + 1]!;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (neighbours[middle]! < j) low = middle + 1;
    else high = middle;
  }
  return low < offsets[i + 1]! && neighbours[low] === j;
}
