import type { Cell } from '@/lib/cube/types';
import type { LinkedTable } from './linked-table';

/** True where a published 0 or all of n in a larger published cell (or sentence) says the outcome of this one. */
export function isSettled(table: LinkedTable, cell: number, says: (cell: number) => boolean): boolean {
  return says(cell) || table.totalsOf[cell]!.some((total) => isSettled(table, total, says));
}

export function isUnanimous({ resistant, tested }: Cell): boolean {
  return resistant === 0 || resistant === tested;
}
