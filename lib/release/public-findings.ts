import type { ReleasedCube } from '@/lib/disclosure/types';
import { computeFindings, type FindingsInput } from '@/lib/findings/compute-findings';
import type { Finding } from '@/lib/findings/types';
import type { Pair } from '@/lib/vocabulary/terms';
import { districtPeriods, publicObservations, withheldCells } from './observations';

/**
 * The findings of a release: a function of its released cells, its region, the seed and the number of permutations, and of
 * nothing else, so that whoever has the files of a release gets the same.
 */
export function publicFindings(
  cube: ReleasedCube,
  order: Pick<FindingsInput, 'region' | 'seed' | 'permutations' | 'speciesName'>,
): Finding[] {
  return computeFindings({
    ...order,
    observations: publicObservations(cube),
    withheld: withheldCells(cube),
    pairs: pairsOf(cube),
    windows: cube.windows,
    closedSeasons: cube.closedSeasons,
    areas: cube.areas,
    districtPeriods: (pair) => districtPeriods(cube, pair),
  });
}

/** Species × group pairs with at least one screened population, sorted. */
export function pairsOf(cube: ReleasedCube): Pair[] {
  const pairs = new Map<string, Pair>();
  for (const { species, group } of cube.cells) pairs.set(`${species}|${group}`, { species, group });
  return [...pairs.values()].sort((a, b) =>
    a.species < b.species ? -1 : a.species > b.species ? 1 : a.group - b.group,
  );
}
