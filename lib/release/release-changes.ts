import { FURTHER_TABLES, type FurtherTable, furtherTableOf } from '@/lib/disclosure/further';
import type { ReleasedCell } from '@/lib/disclosure/types';
import type { Pair, Period, Season } from '@/lib/vocabulary/terms';
import type { CellChange } from './cell-changes';
import type { ReleaseBefore, ReleaseDraft } from './types';

/** Numbers of cells that differ between two releases. */
export interface CellTally {
  appeared: number;
  /** Of those that appeared. */
  published: number;
  withheld: number;
  changed: number;
  /** Of those that changed: published before and withheld now, and the other way round. */
  hidden: number;
  shown: number;
  disappeared: number;
}

/** How a release differs from the one before it, in numbers of cells: by what both show in public and nothing else. */
export interface ReleaseChanges {
  since: { number: number; date: string };
  all: CellTally;
  /** Cells that say the same. */
  same: number;
  /** Pairs of the release with a difference. */
  byPair: (Pair & CellTally)[];
  /** By crop, by active and in multiple resistance, with the cells that say the same; absent where it was not counted. */
  further?: ({ table: FurtherTable; same: number } & CellTally)[];
  /** Seasons closed and windows that are new. */
  seasons: Season[];
  windows: Period[];
  /** Versions where they are others than before. */
  caseDefinition: { before: string; now: string } | null;
  policy: { before: string; now: string } | null;
}

/**
 * Counts the differences.
 *
 * @param changes as `cellChanges` gives them for the two releases
 * @param further the same of their further tables; null where the release before has none
 */
export function releaseChanges(
  { head, cube }: Pick<ReleaseDraft, 'head' | 'cube'>,
  before: ReleaseBefore,
  changes: readonly CellChange[],
  further: readonly CellChange[] | null,
): ReleaseChanges {
  const all = tally(changes);
  const byPair = head.pairs.map(({ species, group }) => ({
    ...{ species, group },
    ...tally(changes.filter(({ cell }) => cell.species === species && cell.group === group)),
  }));
  return {
    since: { number: before.number, date: before.head.date },
    all,
    same: cube.cells.length - all.appeared - all.changed,
    byPair: byPair.filter(({ appeared, changed, disappeared }) => appeared + changed + disappeared > 0),
    ...(further && { further: byTable(cube.further, further) }),
    seasons: head.closedSeasons.filter((season) => !before.head.closedSeasons.includes(season)),
    windows: head.windows.filter(({ first }) => before.head.windows.every((one) => one.first !== first)),
    caseDefinition: other(before.head.caseDefinition.version, head.caseDefinition.version),
    policy: other(before.head.policy.version, head.policy.version),
  };
}

function byTable(
  cells: readonly ReleasedCell[],
  changes: readonly CellChange[],
): NonNullable<ReleaseChanges['further']> {
  return FURTHER_TABLES.map((table) => {
    const all = tally(changes.filter(({ cell }) => furtherTableOf(cell) === table));
    const there = cells.filter((cell) => furtherTableOf(cell) === table).length;
    return { table, ...all, same: there - all.appeared - all.changed };
  });
}

function tally(changes: readonly CellChange[]): CellTally {
  const of = (kind: CellChange['change']) => changes.filter(({ change }) => change === kind);
  const [appeared, changed] = [of('appeared'), of('changed')];
  const became = (status: string) =>
    changed.filter(({ column, after }) => column === 'status' && after === status).length;
  return {
    appeared: appeared.length,
    published: appeared.filter(({ after }) => after === 'published').length,
    withheld: appeared.filter(({ after }) => after === 'withheld').length,
    changed: new Set(changed.map(({ cell }) => cell)).size,
    hidden: became('withheld'),
    shown: became('published'),
    disappeared: of('disappeared').length,
  };
}

function other(before: string, now: string): { before: string; now: string } | null {
  return before === now ? null : { before, now };
}
