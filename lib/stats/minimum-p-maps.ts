import { hypergeometricTest } from './hypergeometric';
import { type Level, minimumPLevels, pOf, type WindowTest } from './minimum-p-levels';
import type { Weights } from './weights';

/** Looks through so many maps at once. */
export interface MapMinima {
  lanes: 1 | 2;
  /** For each of at most `lanes` maps (marked at each place) the smallest p of its windows. */
  smallest: (maps: readonly Int32Array[]) => number[];
}

/**
 * The smallest p over all windows (a place and its neighbours) of a map. p are computed for those windows only whose
 * count reaches the first level; where none does, for those of the next.
 *
 * Two maps share a 32-bit word, each with 15 bits and a guard bit above: one sum adds up both windows, and one addition
 * lifts the guard bit of each count that reaches its level. Where counts may be larger a word holds one map.
 *
 * @param drawn for each window the number tested in it
 * @cost O(places + links) a word
 */
export function mapMinima(weights: Weights, drawn: Float64Array, test: WindowTest): MapMinima {
  const { places, offsets, neighbours } = weights;
  const lanes = test.marked < 32_768 ? 2 : 1;
  const guard = lanes === 2 ? 0x8000 : 0x4000_0000;
  const each = lanes === 2 ? 0x0001_0001 : 1;
  const guards = Math.imul(guard, each);
  const levels = minimumPLevels(drawn, test);
  const { fewest, most } = levels[0]!;
  const toFewest = fewest.map((count) => Math.imul(guard - count, each));
  const toMost = most.map((count) => Math.imul(guard + count, each));
  const words = new Int32Array(places);
  const sums = new Int32Array(places);
  const reached = new Int32Array(places);
  return { lanes, smallest };

  function smallest(maps: readonly Int32Array[]): number[] {
    const [one, other] = maps;
    for (let i = 0; i < places; i += 1) words[i] = one![i]! | (other ? other[i]! << 16 : 0);
    const candidates = sweep();
    return maps.map((_, lane) => smallestOf(lane, candidates));
  }

  /** Adds up all windows and lists those of which some map reaches the first level. */
  function sweep(): number {
    let found = 0;
    let at = 0;
    for (let i = 0; i < places; i += 1) {
      let sum = words[i]!;
      for (const end = offsets[i + 1]!; at < end; at += 1) sum += words[neighbours[at]!]!;
      sums[i] = sum;
      if (((sum + toFewest[i]!) | (toMost[i]! - sum)) & guards) {
        reached[found] = i;
        found += 1;
      }
    }
    return found;
  }

  function smallestOf(lane: number, candidates: number): number {
    let best = 2;
    for (let c = 0; c < candidates; c += 1) best = Math.min(best, pAt(reached[c]!, lane, levels[0]!));
    for (let next = 1; best > 1; next += 1) {
      for (let i = 0; i < places; i += 1) best = Math.min(best, pAt(i, lane, levels[next]!));
    }
    return best;
  }

  /** 2 where the count does not reach the level. */
  function pAt(i: number, lane: number, level: Level): number {
    const count = lanes === 1 ? sums[i]! : (sums[i]! >>> (16 * lane)) & 0x7fff;
    if (count < level.fewest[i]! && count > level.most[i]!) return 2;
    const { total, marked, alternative, midP } = test;
    return pOf(hypergeometricTest(count, { total, marked, drawn: drawn[i]! }, { midP }), alternative);
  }
}
