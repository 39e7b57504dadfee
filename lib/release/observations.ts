import type { ReleasedCell, ReleasedCube } from '@/lib/disclosure/types';
import type { Observation, WithheldCell } from '@/lib/findings/types';
import type { Pair, Period } from '@/lib/vocabulary/terms';
import { hasSeasonTable } from './season-tables';

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

/** How districts are shown for a pair: season by season where that is published, else by window. Never overlapping. */
export function districtPeriods(cube: ReleasedCube, pair: Pair): Period[] {
  return cube.windows.flatMap((window) => {
    if (!hasSeasonTable(cube, 'district', pair, window.first)) return [window];
    return Array.from({ length: window.last - window.first + 1 }, (_, i) => {
      return { first: window.first + i, last: window.first + i };
    });
  });
}

function isMain({ assay, design, unfinished }: ReleasedCell): boolean {
  return assay === 'whole plant' && design === null && !unfinished;
}
