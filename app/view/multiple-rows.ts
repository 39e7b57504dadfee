import type { MultipleCell } from '@/lib/disclosure/types';
import type { Region } from '@/lib/geography/types';
import type { Period } from '@/lib/vocabulary/terms';
import { type Estimate, estimate } from './place-numbers';
import { findPlace, type Place } from './places';

/** How many populations screened against two groups or more were resistant to none, one, and more of them. */
export interface MultipleRow {
  place: Place;
  period: Period;
  /** Null where it is withheld. */
  counts: MultipleCell['counts'];
  /** Share of those resistant to two groups or more; null as `counts`. */
  several: Estimate | null;
}

/** The rows of some cells, in their order. */
export function multipleRows(cells: readonly MultipleCell[], region: Region): MultipleRow[] {
  return cells.map(({ place, period, counts }) => ({
    place: findPlace(region, place),
    period,
    counts,
    several: counts && estimate(counts.tested, counts.several),
  }));
}
