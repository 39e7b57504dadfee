import { deriveSeed, Random } from '@/lib/stats/random';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { atRisk } from '@/lib/stats/spread/at-risk';
import { checkHazard } from '@/lib/stats/spread/hazard/check-hazard';
import { anyFoundNeighbour } from '@/lib/stats/spread/hazard/exposures';
import { fitHazard } from '@/lib/stats/spread/hazard/fit-hazard';
import { nearness } from '@/lib/stats/spread/nearness';
import { nearnessDistance } from '@/lib/stats/spread/nearness-distance';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { Ground, Testing } from './screening';
import { RARE, WAVE, type Way } from './ways';

export interface NearnessRow {
  /** Its name. */
  way: string;
  testing: Testing;
  /** For each test the p of every run; null where there was no answer. */
  found: Record<string, (number | null)[]>;
}

export const NEARNESS_TESTS = [
  [
    'naive',
    'new places with a found neighbour against all places at risk of all seasons together: here as a warning only',
  ],
  ['by season', 'the same among places of the same season'],
  [
    'by season and tested',
    'the same among places of the same season and class of how many were tested: the default',
  ],
  ['mid-p', 'the default with half of the observed count'],
  ['distance', 'mean distance to the nearest earlier find, within the default’s strata (199 permutations)'],
  ['hazard', 'clustered Wald test of a found neighbour in the hazard model, one-sided'],
  ['hazard’s fit', 'check of the hazard model’s expected chances: its level, where the model holds'],
] as const;

export const TESTINGS: readonly Testing[] = ['even', 'uneven', 'follows finds'];
export const NEARNESS_WAYS: readonly Way[] = [RARE, WAVE];

export function nearnessRuns(
  ground: Ground,
  way: Way,
  testing: Testing,
  { runs, seed }: { runs: number; seed: number },
): NearnessRow {
  const found: NearnessRow['found'] = Object.fromEntries(NEARNESS_TESTS.map(([name]) => [name, []]));
  for (let run = 0; run < runs; run += 1) {
    const random = new Random(deriveSeed(seed, `${way.name}|${testing}|${run}`));
    const counts = ground.screen(testing, way.plant(ground, random), random);
    for (const [k, p] of ask(ground, counts, run).entries()) found[NEARNESS_TESTS[k]![0]]!.push(p);
  }
  return { way: way.name, testing, found };
}

function ask({ weights, points }: Ground, counts: SeasonCounts, seed: number): (number | null)[] {
  const byBoth = nearness(counts, weights);
  const known = arrivals(counts);
  const rows = atRisk(counts, known);
  const fit = fitHazard(rows, counts.seasons, [anyFoundNeighbour(rows, known, weights)]);
  const hazard = fit.kind === 'fit' ? oneSided(fit.estimates[0]!) : null;
  return [
    nearness(counts, weights, { strata: 'none' }).p,
    nearness(counts, weights, { strata: 'season' }).p,
    byBoth.p,
    byBoth.midP,
    nearnessDistance(counts, points, { permutations: 199, seed }).p,
    hazard,
    fit.kind === 'fit' ? checkHazard(fit).p : null,
  ];
}

function oneSided({ value, p }: { value: number; p: number }): number {
  return value > 0 ? p / 2 : 1 - p / 2;
}
