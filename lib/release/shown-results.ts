import type { Fact } from '@/lib/cube/types';
import { cellKeyText, isWhole } from '@/lib/disclosure/cell-order';
import type { EarlierCube } from '@/lib/disclosure/standing';
import type { Period } from '@/lib/vocabulary/terms';
import type { CellEntry } from './cell-finder';

/** A release in which cells are looked up, with the cells of a fact in it. */
export interface ShownIn {
  cube: Pick<EarlierCube['cube'], 'cells' | 'windows'>;
  cellsOf: (fact: Fact) => readonly CellEntry[];
}

type EntryCell = CellEntry['cell'];

/**
 * Which results count towards resistance to several groups: those that stand in shown cells only, of every place and
 * every period of their window. Such a count tells nothing of withheld cells, because its populations are there whatever
 * these hold: any other truth of the withheld cells leaves the shown ones as they are. For every window the first
 * release that has it decides, for ever.
 *
 * @param releases oldest first
 * @returns false for a fact of a season that no window of them holds
 */
export function createShownResults(releases: readonly ShownIn[]): (fact: Fact) => boolean {
  const first = new Map<number, { window: Period; isShown: (fact: Fact) => boolean }>();
  for (const { cube, cellsOf } of releases) {
    const looks = new Map(cube.cells.map((cell) => [cellKeyText(cell), cell.status]));
    for (const window of cube.windows) {
      if (first.has(window.first)) continue;
      const isInside = ({ period }: EntryCell) => window.first <= period.first && period.last <= window.last;
      // Districts, and counties by season, have no table for some pairs: what is not there hides nothing.
      const mayBeAbsent = ({ placeKind, period }: EntryCell) =>
        placeKind === 'district' ||
        (placeKind === 'county' && (period.first !== window.first || period.last !== window.last));
      const isShown = (fact: Fact) =>
        cellsOf(fact)
          .filter(({ cell }) => isWhole(cell) && isInside(cell))
          .every(({ cell, text }) => {
            const look = looks.get(text);
            return look === 'published' || (look === undefined && mayBeAbsent(cell));
          });
      first.set(window.first, { window, isShown });
    }
  }
  const known = new WeakMap<Fact, boolean>();
  return (fact) => {
    let shown = known.get(fact);
    if (shown === undefined) {
      const own = [...first.values()].find(
        ({ window }) => window.first <= fact.season && fact.season <= window.last,
      );
      shown = own?.isShown(fact) ?? false;
      known.set(fact, shown);
    }
    return shown;
  };
}
