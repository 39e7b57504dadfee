import { cellKeyText, compareCells } from '@/lib/disclosure/cell-order';
import type { ReleasedCell } from '@/lib/disclosure/types';
import { COLUMNS, type Column } from './columns';
import { orNull, type Value } from './files/field';

/** What one column of a cell said in the release before, and says in this one. */
export interface CellChange {
  cell: ReleasedCell;
  change: 'appeared' | 'disappeared' | 'changed';
  column: string;
  before: Value;
  after: Value;
}

/**
 * How the public cells of two releases differ, in the order of cells: a line for each column that says something else,
 * one line (its status) for a cell that is in one of them only. Shares follow from counts and are left out.
 *
 * Nothing but the two releases goes in, and of a withheld cell they hold no count, so the changes tell no more than
 * those who kept both can see.
 *
 * @param before cells of the earlier release
 * @param now cells of the release that is made
 */
export function cellChanges(before: readonly ReleasedCell[], now: readonly ReleasedCell[]): CellChange[] {
  const earlier = new Map(before.map((cell) => [cellKeyText(cell), cell]));
  const later = new Set(now.map(cellKeyText));
  const gone = before.filter((cell) => !later.has(cellKeyText(cell)));
  return [...now, ...gone].sort(compareCells).flatMap((cell): CellChange[] => {
    const old = earlier.get(cellKeyText(cell));
    if (!old) return [{ cell, change: 'appeared', column: 'status', before: null, after: cell.status }];
    if (!later.has(cellKeyText(cell)))
      return [{ cell, change: 'disappeared', column: 'status', before: cell.status, after: null }];
    return COMPARED.map((column) => ({
      ...{ cell, change: 'changed' as const, column: column.name },
      ...{ before: cellValue(column, old), after: cellValue(column, cell) },
    })).filter(({ before: was, after: is }) => was !== is);
  });
}

/** What a column that looks at nothing but the cell says of it. */
export function cellValue({ value }: Column, cell: ReleasedCell): Value {
  const row = { ...cell, pair: cell, cell, placeName: '', state: '', district: '' };
  return orNull(value(row, { number: 0, simulated: false, caseDefinition: '' }));
}

const NAMES = [
  ...['status', 'unfinished', 'tested', 'resistant', 'some_survivors'],
  ...['received', 'testable', 'inconclusive', 'actives_tested'],
];
const COMPARED = COLUMNS.filter(({ name }) => NAMES.includes(name));
