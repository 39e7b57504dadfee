import type { Cell, CellKey } from '@/lib/cube/types';
import { cellKeyText, isWhole } from './cell-order';
import { furtherTableOf } from './further';
import { isPrimary } from './primary';
import type { Policy, ReleasedCell, ReleasedCube, SeasonTable } from './types';

/** An earlier release: what everybody saw of it, and the private cells it was made from. */
export interface EarlierCube {
  cube: Pick<
    ReleasedCube,
    | 'closedSeasons'
    | 'openSeason'
    | 'windows'
    | 'seasonTables'
    | 'cells'
    | 'further'
    | 'furtherTables'
    | 'statuses'
    | 'areas'
  >;
  truth: readonly Cell[];
}

/** What a withheld cell held in an earlier release, and by how much it holds more now. */
export interface EarlierValue {
  tested: number;
  more: { tested: number; resistant: number; 'not resistant': number };
}

/** What earlier releases settled for the cells of this one. */
export interface Standing {
  /**
   * `shown`: a count or a zero was published. `withheld`: it was not, and must not be now, or the two releases could
   * be compared. Null: no earlier release has this cell, or only as a withheld figure of a season under way.
   */
  lookOf: (cell: CellKey) => 'shown' | 'withheld' | null;
  /** False where an earlier release has the closed cell without its receipt. */
  mayShowReceipt: (cell: CellKey) => boolean;
  /** Primary counts that earlier releases withheld and that have changed since: they stay protected. */
  earlierOf: (cell: Cell) => EarlierValue[];
  /** First seasons of windows whose season tables are decided. */
  decided: ReadonlySet<number>;
  seasonTables: readonly SeasonTable[];
}

/** Nothing was released before. */
export const NOTHING_STANDS: Standing = {
  lookOf: () => null,
  mayShowReceipt: () => true,
  earlierOf: () => [],
  decided: new Set(),
  seasonTables: [],
};

/**
 * What stands: shown stays shown, withheld stays withheld, and which season tables there are is decided once for a closed
 * window (design of disclosure control, policy 1 and 8).
 *
 * @param earlier every release so far, oldest first, withdrawn ones among them
 */
export function standingOf(earlier: readonly EarlierCube[], policy: Policy): Standing {
  const looks = earlier.map(({ cube, truth }) => ({
    cube,
    cells: new Map([...cube.cells, ...cube.further].map((cell) => [cellKeyText(cell), cell])),
    truth: new Map(truth.map((cell) => [cellKeyText(cell), cell])),
  }));
  const lookOf = (key: CellKey) => {
    let look: 'shown' | 'withheld' | null = null;
    for (const { cube, cells } of looks) {
      const table = tableOf(cube, key);
      if (table === null) continue;
      const cell = cells.get(cellKeyText(key));
      if (!cell || cell.status === 'published') look = 'shown';
      else if (table === 'closed' && look === null) look = 'withheld';
    }
    return look;
  };
  return {
    lookOf,
    mayShowReceipt: (key) => looks.every(({ cells }) => hadReceipt(cells.get(cellKeyText(key)))),
    earlierOf: (now) =>
      looks.flatMap(({ cube, cells, truth }): EarlierValue[] => {
        const key = cellKeyText(now);
        const then = truth.get(key);
        if (tableOf(cube, now) !== 'closed' || cells.get(key)?.status !== 'withheld' || !then) return [];
        return isPrimary(then, policy) && !isSame(then, now) ? [earlierValue(then, now)] : [];
      }),
    decided: new Set(earlier.flatMap(({ cube }) => cube.windows.map(({ first }) => first))),
    seasonTables: distinctTables(earlier.flatMap(({ cube }) => cube.seasonTables)),
  };
}

/** Whether a release has the table in which this cell would stand, and as what: there an absent cell is a public zero. */
export function tableOf(
  {
    closedSeasons,
    openSeason,
    windows,
    seasonTables,
    areas,
    furtherTables,
  }: Omit<EarlierCube['cube'], 'cells' | 'further' | 'statuses'>,
  { placeKind, place, period: { first, last }, species, group, assay, design, part }: CellKey,
): 'closed' | 'unfinished' | null {
  const further = furtherTableOf({ group, part });
  if (further !== null && !furtherTables.includes(further)) return null;
  const coarse = placeKind === 'region' || placeKind === 'state';
  if (first === last && coarse) {
    if (closedSeasons.includes(first)) return 'closed';
    const isUnfinished = first === openSeason && assay === 'whole plant' && isWhole({ design, part });
    return isUnfinished ? 'unfinished' : null;
  }
  const window = windows.find((w) => w.first <= first && last <= w.last);
  if (!window) return null;
  if (window.first === first && window.last === last) {
    if (placeKind !== 'area') return 'closed';
    const table = areas.find((joined) => joined.species === species && joined.first === first);
    return table?.areas.some((counties) => counties.join('+') === place) ? 'closed' : null;
  }
  const isThere = seasonTables.some(
    (table) =>
      table.placeKind === placeKind &&
      table.first === window.first &&
      table.species === species &&
      table.group === group,
  );
  return isThere ? 'closed' : null;
}

/** A closed cell that was published without a receipt, or withheld, hid it; one under way has grown since. */
function hadReceipt(cell: ReleasedCell | undefined): boolean {
  return cell === undefined || cell.unfinished || cell.receipt !== null;
}

function isSame(a: Cell, b: Cell): boolean {
  return (
    a.resistant === b.resistant && a.someSurvivors === b.someSurvivors && a.susceptible === b.susceptible
  );
}

function earlierValue(then: Cell, now: Cell): EarlierValue {
  const tested = now.tested - then.tested;
  const resistant = now.resistant - then.resistant;
  return { tested: then.tested, more: { tested, resistant, 'not resistant': tested - resistant } };
}

function distinctTables(tables: readonly SeasonTable[]): SeasonTable[] {
  const keyOf = ({ placeKind, species, group, first }: SeasonTable) =>
    `${placeKind}|${species}|${group}|${first}`;
  return [...new Map(tables.map((table) => [keyOf(table), table])).values()];
}
