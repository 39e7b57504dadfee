import type { ReleasedCell } from '@/lib/disclosure/types';
import type { cell } from '../schema/release';

/** A released cell from its row. */
export function toCell(row: typeof cell.$inferSelect): ReleasedCell {
  const { tested, resistant, someSurvivors, received, testable, inconclusive } = row;
  return {
    placeKind: row.placeKind,
    place: row.place,
    period: { first: row.periodFirst, last: row.periodLast },
    species: row.species,
    group: row.group,
    assay: row.assay,
    design: row.design,
    status: row.status,
    counts: known({ tested, resistant, someSurvivors }),
    receipt: known({ received, testable, inconclusive }),
    actives: row.actives,
    unfinished: row.unfinished,
  };
}

/** The counts when all are there, else null. */
function known<K extends string>(counts: Record<K, number | null>): Record<K, number> | null {
  return Object.values(counts).includes(null) ? null : (counts as Record<K, number>);
}
