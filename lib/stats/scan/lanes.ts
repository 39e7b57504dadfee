import type { ScanPlan, Slice } from './types';

/** Counts of several data sets on the same places, packed so that one sweep adds them all. */
export interface Lanes {
  /** place × word. Lane l stands in word l mod 8, in its upper half from lane 8 on. */
  words: Int32Array;
  /** Data sets in a word: two of 15 bits and a guard bit where no sum can reach 2^15, else one of 30 bits. */
  perWord: 1 | 2;
}

/** 32-bit words that one sweep adds up side by side. */
export const WORDS = 8;

/**
 * The counts of a slice's seasons, summed at each place, of several data sets.
 *
 * @param dataSets place × season each, at most `laneCount`; lanes that are left over repeat the first, so that they
 *   never pass where it does not
 */
export function packLanes(dataSets: readonly Int32Array[], slice: Slice, plan: LanePlan): Lanes {
  const places = plan.circles.places.length;
  const words = new Int32Array(places * WORDS);
  const lanes = laneCount(plan.totalResistant);
  const sums = dataSets.map((resistant) => sliceCounts({ ...plan, resistant }, slice));
  for (let lane = 0; lane < lanes; lane += 1) {
    const counts = sums[lane] ?? sums[0]!;
    const shift = lane >= WORDS ? 16 : 0;
    for (let place = 0; place < places; place += 1)
      words[place * WORDS + (lane % WORDS)]! += counts[place]! << shift;
  }
  return { words, perWord: lanes > WORDS ? 2 : 1 };
}

type LanePlan = Pick<ScanPlan, 'circles' | 'seasons' | 'totalResistant'>;

/** Data sets that fit into one sweep. */
export function laneCount(totalResistant: number): number {
  return totalResistant < 32_768 ? 2 * WORDS : WORDS;
}

/** For each place the counts of a slice's seasons. */
export function sliceCounts(
  { resistant, circles, seasons }: Pick<ScanPlan, 'resistant' | 'circles' | 'seasons'>,
  { from, to }: Slice,
): Int32Array {
  const counts = new Int32Array(circles.places.length);
  for (let place = 0; place < counts.length; place += 1) {
    for (let season = from; season <= to; season += 1) counts[place]! += resistant[place * seasons + season]!;
  }
  return counts;
}
