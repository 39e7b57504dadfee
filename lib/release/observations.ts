import type { ReleasedCube } from '@/lib/disclosure/types';
import type { Observation } from '@/lib/findings/types';

/**
 * What public findings are computed from: the published whole-plant cells of all designs together, closed seasons
 * only. Withheld cells are absent, so no finding can depend on a withheld count.
 */
export function publicObservations(cube: ReleasedCube): Observation[] {
  return cube.cells.flatMap(
    ({ placeKind, place, period, species, group, assay, design, counts, unfinished }) =>
      counts && assay === 'whole plant' && design === null && !unfinished
        ? [{ placeKind, place, period, species, group, tested: counts.tested, resistant: counts.resistant }]
        : [],
  );
}
