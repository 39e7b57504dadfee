import { and, eq } from 'drizzle-orm';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { ReleasedCell } from '@/lib/disclosure/types';
import type { Eppo } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { type cell, multipleCell, partCell } from '../schema/release';

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

/** The cells of a release's further tables, as the gate has them. */
export async function furtherCellsOf(
  db: StaffDatabase,
  release: number,
  species: Eppo | null = null,
): Promise<ReleasedCell[]> {
  const of = (table: typeof partCell | typeof multipleCell) =>
    and(eq(table.release, release), species === null ? undefined : eq(table.species, species));
  const parts = await db.select().from(partCell).where(of(partCell));
  const several = await db.select().from(multipleCell).where(of(multipleCell));
  return [
    ...parts.map(({ group, of, part, tested, resistant, someSurvivors, ...row }) => {
      const counts = known({ tested, resistant, someSurvivors });
      return furtherCell({ ...row, group, part: { of, name: part }, counts });
    }),
    ...several.map(({ tested, one, several: resistant, ...row }) => {
      const counts = known({ tested, resistant, someSurvivors: one });
      return furtherCell({ ...row, group: SEVERAL_GROUPS, counts });
    }),
  ];
}

type FurtherRow = Pick<
  ReleasedCell,
  'placeKind' | 'place' | 'species' | 'group' | 'part' | 'status' | 'counts'
> & {
  periodFirst: number;
  periodLast: number;
};

function furtherCell({
  placeKind,
  place,
  species,
  group,
  part,
  status,
  counts,
  ...row
}: FurtherRow): ReleasedCell {
  return {
    ...{ placeKind, place, species, group, status, counts },
    ...(part && { part }),
    period: { first: row.periodFirst, last: row.periodLast },
    ...{ assay: 'whole plant', design: null, receipt: null, actives: [], unfinished: false },
  };
}

/** The counts when all are there, else null. */
export function known<K extends string>(counts: Record<K, number | null>): Record<K, number> | null {
  return Object.values(counts).includes(null) ? null : (counts as Record<K, number>);
}
