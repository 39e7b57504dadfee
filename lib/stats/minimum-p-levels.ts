import { type HypergeometricTest, hypergeometricTest } from './hypergeometric';

export type Alternative = 'greater' | 'less' | 'two-sided';

/** What all windows of a map share. */
export interface WindowTest {
  total: number;
  marked: number;
  alternative: Alternative;
  midP: boolean;
}

/** For each window the counts from which on, or up to which, its p is at most a level. */
export interface Level {
  fewest: Int32Array;
  most: Int32Array;
}

/** The p that an alternative asks for. */
export function pOf(test: HypergeometricTest, alternative: Alternative): number {
  return alternative === 'two-sided' ? test.twoSided : test[alternative];
}

/**
 * Levels of p as counts, so that a map is looked through by comparing whole numbers: the first is one that some window
 * of most maps reaches, the last one that every window reaches.
 *
 * @param drawn for each window the number tested in it
 * @cost O(levels · different numbers tested · log of their counts) tests
 */
export function minimumPLevels(drawn: Float64Array, test: WindowTest): Level[] {
  const levels = [];
  for (let level = FIRST / drawn.length; level < 1; level *= 8) levels.push(levelAt(drawn, test, level));
  return [...levels, levelAt(drawn, test, 1)];
}

/** Windows that a map without pattern would bring past the first level, if p were continuous. */
const FIRST = 5;

function levelAt(drawn: Float64Array, test: WindowTest, level: number): Level {
  const bySize = new Map<number, readonly [number, number]>();
  for (const size of drawn) if (!bySize.has(size)) bySize.set(size, extremeCounts(size, test, level));
  return {
    fewest: Int32Array.from(drawn, (size) => bySize.get(size)![0]),
    most: Int32Array.from(drawn, (size) => bySize.get(size)![1]),
  };
}

/** By bisection: one tail falls with the count, the other grows. */
function extremeCounts(
  drawn: number,
  { total, marked, alternative, midP }: WindowTest,
  level: number,
): readonly [number, number] {
  const lowest = Math.max(0, drawn + marked - total);
  const highest = Math.min(drawn, marked);
  if (level >= 1) return [lowest, highest];
  const tail = alternative === 'two-sided' ? level / 2 : level;
  const at = (count: number) => hypergeometricTest(count, { total, marked, drawn }, { midP });
  return [
    alternative === 'less' ? highest + 1 : firstWhere(lowest, highest, (count) => at(count).greater <= tail),
    alternative === 'greater'
      ? lowest - 1
      : firstWhere(lowest, highest, (count) => at(count).less > tail) - 1,
  ];
}

/** The first whole number of `low` … `high` at which a condition holds that then goes on holding; `high` + 1 if none. */
export function firstWhere(low: number, high: number, holds: (x: number) => boolean): number {
  let from = low;
  let to = high + 1;
  while (from < to) {
    const middle = Math.floor((from + to) / 2);
    if (holds(middle)) to = middle;
    else from = middle + 1;
  }
  return from;
}
