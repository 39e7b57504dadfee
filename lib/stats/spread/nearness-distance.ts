import { checkPermutations } from '../errors';
import { Random } from '../random';
import { tailCounts } from '../tail-counts';
import { arrivals } from './arrivals';
import { atRisk } from './at-risk';
import { nearestFound } from './nearest-found';
import { type NearnessStrata, nearnessStrata, TESTED_CLASSES } from './nearness-strata';
import type { SeasonCounts, SpreadPoints } from './types';

export interface NearnessDistance {
  /** (M + 1) / (R + 1), M of R permutations in which the new places lie as near or nearer: in (0, 1]. */
  p: number;
  /** Mean distance of the new places to the nearest one found before, and its mean over the permutations; km or the
   * plane's unit. Null where no stratum leaves a choice. */
  observed: number | null;
  expected: number | null;
  /** New places that were compared: in strata that hold others too. */
  newFinds: number;
  permutations: number;
}

/**
 * Do places found new after a clean record lie nearer to the places found before than those at risk of the same season
 * that were tested as much? Who is new is dealt out again inside strata.
 *
 * @param run `permutations` as 999, `seed` an integer, strata and classes as `nearness`
 * @policy Seasons before anything was found, and strata in which all or none are new, say nothing and drop out; with
 *   none left p = 1 and no distance.
 * @throws StatsError `bad argument`, `bad count`
 * @source (M + 1) / (R + 1): Phipson & Smyth 2010, Stat. Appl. Genet. Mol. Biol. 9(1) 39; the statistic is our own
 * @cost O(places · places found + permutations · new places)
 */
export function nearnessDistance(
  counts: SeasonCounts,
  points: SpreadPoints,
  run: {
    permutations: number;
    seed: number;
    strata?: NearnessStrata;
    classes?: readonly number[];
  },
): NearnessDistance {
  const { permutations, seed, strata = 'season and tested', classes = TESTED_CLASSES } = run;
  checkPermutations(permutations);
  const known = arrivals(counts);
  const rows = atRisk(counts, known);
  const distances = nearestFound(rows, known, points);
  const groups = choices(distances, rows.isNew, nearnessStrata(rows, strata, classes));
  const newFinds = groups.reduce((sum, { chosen }) => sum + chosen, 0);
  if (newFinds === 0) return { p: 1, observed: null, expected: null, newFinds, permutations };
  const total = groups.reduce((sum, { seen }) => sum + seen, 0);
  const random = new Random(seed);
  const draw = () => groups.reduce((sum, group) => sum + drawSum(group, random), 0);
  const found = tailCounts({ observed: total, slack: 1e-9 * total, permutations }, draw);
  return {
    p: found.pLess,
    observed: total / newFinds,
    expected: found.mean / newFinds,
    newFinds,
    permutations,
  };
}

/** A stratum: distances of its places, how many of them are new, and the sum of theirs. */
interface Choice {
  distances: Float64Array;
  chosen: number;
  seen: number;
}

function choices(distances: Float64Array, isNew: Uint8Array, strata: Int32Array): Choice[] {
  const members = new Map<number, number[]>();
  strata.forEach((stratum, row) => {
    if (distances[row] === Number.POSITIVE_INFINITY) return;
    if (!members.has(stratum)) members.set(stratum, []);
    members.get(stratum)!.push(row);
  });
  return [...members.values()].flatMap((rows) => {
    const found = rows.filter((row) => isNew[row] === 1);
    if (found.length === 0 || found.length === rows.length) return [];
    const seen = found.reduce((sum, row) => sum + distances[row]!, 0);
    return [{ distances: Float64Array.from(rows, (row) => distances[row]!), chosen: found.length, seen }];
  });
}

/** The sum of so many by chance, without replacement; leaves the places in another order. */
function drawSum({ distances, chosen }: Choice, random: Random): number {
  let sum = 0;
  for (let at = 0; at < chosen; at += 1) {
    const other = at + random.below(distances.length - at);
    const kept = distances[other]!;
    distances[other] = distances[at]!;
    distances[at] = kept;
    sum += kept;
  }
  return sum;
}
