import { type ExactOddsRatio, exactOddsRatio } from '../exact-odds-ratio';
import { degree, type Weights } from '../weights';
import { arrivals } from './arrivals';
import { atRisk } from './at-risk';
import { foundNeighbours } from './found-neighbours';
import { type NearnessStrata, nearnessStrata, stratumParts, TESTED_CLASSES } from './nearness-strata';
import type { SeasonCounts } from './types';

/** Places at risk of one season and class: new ones and all, with a found neighbour and without. */
export interface NearnessTable {
  /** Row of the season, index of the class; 0 where the strata do not tell them apart. */
  season: number;
  class: number;
  nearNew: number;
  near: number;
  farNew: number;
  far: number;
}

export interface Nearness {
  /** Exact one-sided p, in (0, 1]: chance, given the margins, of so many new places with a found neighbour or more. */
  p: number;
  /** The same counting the observed number by half: not sure to hold the level, nearer to it on average. */
  midP: number;
  /** Conditional maximum likelihood odds of being new, with a found neighbour against without; interval two-sided, exact. */
  oddsRatio: number | null;
  low: number | null;
  high: number | null;
  reason: ExactOddsRatio['reason'];
  /** New places with a found neighbour, and how many were to be expected, in strata that carry a comparison. */
  observed: number;
  expected: number;
  /** Strata that carry a comparison. */
  informative: number;
  /** New after a clean record, all of them; and those left out because they have no neighbour. */
  newFinds: number;
  isolated: number;
  tables: NearnessTable[];
}

export interface NearnessOptions {
  /** Default `season and tested`. */
  strata?: NearnessStrata;
  /** Least number of tested of each class, rising from 1; default 1, 2, 4. */
  classes?: readonly number[];
  /** Confidence of the interval, 0.95 unless given. */
  level?: number;
}

/**
 * Are places found new after a clean record beside places found before, more often than the places at risk of the same
 * season that were tested as much? Exact: the sum of hypergeometric counts over strata, an exact Mantel–Haenszel test.
 *
 * @policy Finds at first test are neighbours but never new. Places without neighbours are left out and counted. Strata
 *   with no new place, or all of them near or far, drop out; with none left p = 1 and `nothing varies`. Places on the
 *   region's line lack the neighbours beyond it.
 * @throws StatsError `bad argument`, `bad count`
 * @source exact sum over strata: Mehta, Patel & Gray 1985, JASA 80:969–973 (from memory); new against at risk: the
 *   project's statistics brief. Level and power: tests/reference/calibration-spread.md
 * @cost O(seasons · places · neighbours), and the square of the number of new places
 */
export function nearness(counts: SeasonCounts, weights: Weights, options: NearnessOptions = {}): Nearness {
  const { strata = 'season and tested', classes = TESTED_CLASSES, level = 0.95 } = options;
  const known = arrivals(counts);
  const rows = atRisk(counts, known);
  const found = foundNeighbours(rows, known, weights);
  const codes = nearnessStrata(rows, strata, classes);
  const tables = new Map<number, NearnessTable>();
  let newFinds = 0;
  let isolated = 0;
  rows.place.forEach((place, row) => {
    const isNew = rows.isNew[row]!;
    newFinds += isNew;
    if (degree(weights, place) === 0) {
      isolated += isNew;
      return;
    }
    const code = codes[row]!;
    const table = tables.get(code) ?? { ...stratumParts(code, classes), ...EMPTY };
    tables.set(code, table);
    if (found[row]! > 0) {
      table.near += 1;
      table.nearNew += isNew;
    } else {
      table.far += 1;
      table.farNew += isNew;
    }
  });
  const sorted = [...tables].sort(([a], [b]) => a - b).map(([, table]) => table);
  return { ...test(sorted, level), newFinds, isolated, tables: sorted };
}

const EMPTY = { nearNew: 0, near: 0, farNew: 0, far: 0 };

function test(tables: readonly NearnessTable[], level: number) {
  const counts = {
    cases: tables.map(({ nearNew }) => nearNew),
    tested: tables.map(({ near }) => near),
    referenceCases: tables.map(({ farNew }) => farNew),
    referenceTested: tables.map(({ far }) => far),
  };
  const { pGreater, oddsRatio, low, high, reason, observed, expected, strata } = exactOddsRatio(
    counts,
    level,
  );
  const midP = strata === 0 ? 1 : exactOddsRatio(counts, level, { midP: true }).pGreater;
  return { p: pGreater, midP, oddsRatio, low, high, reason, observed, expected, informative: strata };
}
