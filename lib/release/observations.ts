import type { ReleasedCell, ReleasedCube } from '@/lib/disclosure/types';
import type { Observation, WithheldCell } from '@/lib/findings/types';

/**
 * What public findings are computed from: the published whole-plant cells of all designs together, closed seasons
 * only. Withheld cells have no counts here, so no finding can depend on a withheld count.
 */
export function publicObservations(cube: ReleasedCube): Observation[] {
  return cube.cells
    .filter(isMain)
    .flatMap(({ placeKind, place, period, species, group, counts }) =>
      counts
        ? [{ placeKind, place, period, species, group, tested: counts.tested, resistant: counts.resistant }]
        : [],
    );
}

/** The cells of the same tables that were screened and are withheld: that they are is public. */
export function withheldCells(cube: ReleasedCube): WithheldCell[] {
  return cube.cells
    .filter((cell) => isMain(cell) && cell.status === 'withheld')
    .map(({ placeKind, place, period, species, group }) => ({ placeKind, place, period, species, group }));
}

function isMain({ assay, design, unfinished }: ReleasedCell): boolean {
  return assay === 'whole plant' && design === null && !unfinished;
}
