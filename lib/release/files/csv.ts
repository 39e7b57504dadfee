import { stringify } from 'csv-stringify/sync';
import type { Table } from './field';

/** A table as CSV (RFC 4180): a header, lines ended by CR LF. */
export function csvText({ fields, rows }: Table): string {
  // A cell that starts like a formula is neutralised, whatever a spreadsheet would make of it.
  return stringify(rows as unknown[][], {
    header: true,
    columns: fields.map(({ name }) => name),
    record_delimiter: 'windows',
    escape_formulas: true,
  });
}
