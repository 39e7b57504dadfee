import { checkLengths, checkPermutations, StatsError } from '../errors';
import { Random } from '../random';
import { type ClosePairs, closePairs, firstWithin } from './close-pairs';
import { distanceBetween } from './distance-between';
import type { Knox } from './knox';
import { checkGrid, knoxCells } from './knox-cells';
import { sitesOf, strataShuffle } from './strata-shuffle';
import type { KnoxGrid, PermutationRun, SpaceTimePoints } from './types';

/**
 * Do finds lie close to one another in space and time, beyond where and when was tested? Counts pairs of resistant
 * populations close in both, and deals the resistant out again among all that were tested on the same date.
 *
 * @param tested one for each population that was tested, resistant or not
 * @param resistant 1 or 0 for each of them
 * @param strata a further code: the resistant are dealt out inside a date and code only, as design or district
 * @policy No testing is needed in the same place twice, unlike in `knox` with strata, so power is better; but a place
 *   that is steadily high is enough to be found: this asks for clustering in space and time, not for interaction alone.
 *   Populations of one operation lie close together and are alike: count one for each. On the invented maps of `knox`:
 *   3.0–5.0 % rejected without pattern, however testing moved; a front found in 100 %, a steady hot spot too.
 * @returns as `knox`; `events` are the resistant, `movable` the tested of dates on which some but not all are resistant
 * @throws StatsError as `knox`; `bad count` for a value but 0 and 1
 * @source the count: Knox 1964; the permutation conditions on testing: random labelling, Diggle & Chetwynd 1991,
 *   Biometrics 47:1155–1163 (from memory)
 * @cost O(tested² + permutations · (tested + close pairs of the resistant))
 */
export function knoxAmongTested(
  tested: SpaceTimePoints,
  resistant: ArrayLike<number>,
  grid: KnoxGrid,
  { permutations, seed, strata }: PermutationRun & { strata?: ArrayLike<number> },
): Knox {
  checkPermutations(permutations);
  checkGrid(grid);
  const distance = distanceBetween(tested);
  checkLengths(tested.time, resistant, 'Tested and resistant');
  const { order, shuffle, movable } = strataShuffle(resistant.length, datesOf(tested.time, strata));
  const labels = Int32Array.from(order, (i) => checkLabel(resistant[i]!, i));
  const lags = grid.lags.length;
  const pairs = closePairs(order.length, (a, b) => {
    const [i, j] = [order[a]!, order[b]!];
    const lag = firstWithin(grid.lags, Math.abs(tested.time[i]! - tested.time[j]!));
    if (lag < 0) return -1;
    const within = firstWithin(grid.distances, distance(i, j));
    return within < 0 ? -1 : within * lags + lag;
  });
  const cells = grid.distances.length * lags;
  const counts = new Int32Array((permutations + 1) * cells);
  const random = new Random(seed);
  for (let r = 0; r <= permutations; r += 1) {
    if (r > 0) shuffle(labels, random);
    countPairs(pairs, labels, counts.subarray(r * cells, (r + 1) * cells));
  }
  const found = knoxCells(counts, grid);
  return {
    cells: found,
    p: Math.min(...found.map(({ adjusted }) => adjusted)),
    events: labels.reduce((sum, label) => sum + label, 0),
    movable: movable(labels, sitesOf(tested.x, tested.y, order)),
  };
}

/** One code for each date and further code. */
function datesOf(time: ArrayLike<number>, strata: ArrayLike<number> | undefined): Int32Array {
  if (strata) checkLengths(time, strata, 'Tested and strata');
  const codes = new Map<string, number>();
  return Int32Array.from({ length: time.length }, (_, i) => {
    const key = `${time[i]} ${strata ? strata[i] : ''}`;
    if (!codes.has(key)) codes.set(key, codes.size);
    return codes.get(key)!;
  });
}

function checkLabel(label: number, i: number): number {
  if (label !== 0 && label !== 1) {
    throw new StatsError('bad count', `Population ${i}: got resistant ${label}; expected 0 or 1.`);
  }
  return label;
}

function countPairs({ offsets, others, classes }: ClosePairs, labels: Int32Array, counts: Int32Array): void {
  for (let i = 0; i < labels.length; i += 1) {
    if (labels[i] === 0) continue;
    for (let at = offsets[i]!; at < offsets[i + 1]!; at += 1) {
      counts[classes[at]!]! += labels[others[at]!]!;
    }
  }
}
