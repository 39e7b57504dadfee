import type { Cell } from '@/lib/cube/types';
import type { Period } from '@/lib/vocabulary/terms';
import { compareText } from './cell-order';

/**
 * Which cells of one slice (pair and assay, all designs) may show received, testable and inconclusive.
 *
 * A receipt is shown where its cell is published and all receipts that add up to it are shown too: a hidden one then
 * has no shown total, can always have been larger, and bounds no withheld count. Untested cells with receipts count as
 * hidden.
 *
 * @param cells region and state cells of the slice, with received > 0
 * @param isPublished whether the gate publishes the cell
 */
export function shownReceipts(
  cells: readonly Cell[],
  windows: readonly Period[],
  isPublished: (cell: Cell) => boolean,
): Set<Cell> {
  const order = [...cells].sort((a, b) => rank(a) - rank(b) || compareText(a.place, b.place));
  const shown = new Set<Cell>();
  for (const cell of order) {
    const parts = cells.filter((other) => isPart(other, cell, windows));
    if (isPublished(cell) && parts.every((part) => shown.has(part))) shown.add(cell);
  }
  return shown;
}

/** Parts come before their totals: state seasons, region seasons, state windows, region windows. */
function rank({ placeKind, period }: Cell): number {
  return (period.last > period.first ? 2 : 0) + (placeKind === 'region' ? 1 : 0);
}

function isPart(part: Cell, total: Cell, windows: readonly Period[]): boolean {
  const samePeriod = part.period.first === total.period.first && part.period.last === total.period.last;
  if (samePeriod) return total.placeKind === 'region' && part.placeKind === 'state';
  const samePlace = part.placeKind === total.placeKind && part.place === total.place;
  const window = windows.find(
    ({ first, last }) => first === total.period.first && last === total.period.last,
  );
  return (
    samePlace && window !== undefined && window.first <= part.period.first && part.period.last <= window.last
  );
}
