import type { Region } from '@/lib/geography/types';
import { CELL_KEY, COLUMNS } from '../columns';
import { type ShownCells, tableRows } from '../table-rows';
import { orNull, type Table } from './field';

/** The public table, a line for each place, period, species and group: published, withheld and not screened alike. */
export function cellsTable(draft: ShownCells, number: number, region: Region): Table {
  const { simulated, caseDefinition } = draft.head;
  const release = { number, simulated, caseDefinition: caseDefinition.version };
  const rows = [];
  for (const row of tableRows(draft, region))
    rows.push(COLUMNS.map((column) => orNull(column.value(row, release))));
  return {
    name: 'cells',
    title: 'Populations screened by place, period, species and group',
    fields: COLUMNS,
    key: CELL_KEY,
    rows,
  };
}
