import type { ReleasedCell, ReleasedStatus } from '@/lib/disclosure/types';
import { hasSeasonTable } from '@/lib/release/season-tables';
import type { ReleaseHead } from '@/lib/release/types';
import type { Period, PlaceStatus } from '@/lib/vocabulary/terms';
import type { Place } from './places';

/** What is public of a place over a period. Withheld places have no counts, and neither have places never screened. */
export type Released =
  | { kind: 'published'; tested: number; resistant: number }
  | { kind: 'withheld' }
  | { kind: 'not screened' };

/** The cells that views show, whole-plant results of all designs together, by place. */
export type CellIndex = ReadonlyMap<string, readonly ReleasedCell[]>;

export function indexCells(cells: readonly ReleasedCell[]): CellIndex {
  const index = new Map<string, ReleasedCell[]>();
  for (const cell of cells) {
    if (cell.assay !== 'whole plant' || cell.design !== null) continue;
    const key = `${cell.placeKind}|${cell.place}`;
    const list = index.get(key);
    if (list) list.push(cell);
    else index.set(key, [cell]);
  }
  return index;
}

/**
 * What is released of a place over a period. A window that the release does not hold for this place is the sum of its
 * seasons where all of them are public, else withheld.
 */
export function releasedOver(cells: CellIndex, place: Place, period: Period): Released {
  const own = cellsOf(cells, place);
  const exact = own.find(({ period: { first, last } }) => first === period.first && last === period.last);
  if (exact) return fromCell(exact);
  const seasons = own.filter(
    ({ period: { first, last } }) => first === last && first >= period.first && last <= period.last,
  );
  return seasons.map(fromCell).reduce(add, { kind: 'not screened' });
}

/**
 * True where an absent cell would mean that nothing was screened: over a window; in a season table that is there; in a
 * season of a window without any cell.
 */
export function isSeasonShown(
  head: Pick<ReleaseHead, 'windows' | 'seasonTables'>,
  cells: CellIndex,
  place: Place,
  { first, last }: Period,
): boolean {
  if (first !== last || place.kind === 'region' || place.kind === 'state') return true;
  const window = head.windows.find((one) => one.first <= first && first <= one.last);
  if (!window) return false;
  if (window.first === window.last) return true;
  const [pair] = [...cells.values()].flat();
  if (!pair || releasedOver(cells, place, window).kind === 'not screened') return true;
  return hasSeasonTable(head, place.kind, pair, first);
}

/** The look of a place over a period. */
export function statusOver(released: Released): PlaceStatus {
  if (released.kind === 'not screened') return 'not screened';
  if (released.kind === 'withheld') return 'no public information';
  return released.resistant > 0 ? 'confirmed' : 'none confirmed';
}

/**
 * The look of a place over all closed seasons: what the release says of it; where it has no word for this kind of
 * place, what the published cells say by themselves.
 */
export function statusOverAll(
  statuses: readonly ReleasedStatus[],
  cells: CellIndex,
  place: Place,
): PlaceStatus {
  const said = statuses.find(({ placeKind, place: key }) => key === place.key && placeKind === place.kind);
  if (said) return said.status;
  const closed = cellsOf(cells, place).filter(({ unfinished }) => !unfinished);
  if (closed.length === 0) return 'not screened';
  if (closed.some(({ counts }) => counts && counts.resistant > 0)) return 'confirmed';
  return closed.every(({ counts }) => counts) ? 'none confirmed' : 'no public information';
}

function cellsOf(cells: CellIndex, { kind, key }: Place): readonly ReleasedCell[] {
  return cells.get(`${kind}|${key}`) ?? [];
}

function fromCell({ counts }: ReleasedCell): Released {
  return counts
    ? { kind: 'published', tested: counts.tested, resistant: counts.resistant }
    : { kind: 'withheld' };
}

function add(a: Released, b: Released): Released {
  if (a.kind === 'withheld' || b.kind === 'withheld') return { kind: 'withheld' };
  if (a.kind === 'not screened') return b;
  if (b.kind === 'not screened') return a;
  return { kind: 'published', tested: a.tested + b.tested, resistant: a.resistant + b.resistant };
}
