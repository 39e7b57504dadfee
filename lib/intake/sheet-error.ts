/** Why nothing of a sheet could be read: what is wrong, where, and what to do about it. */
export class SheetError extends Error {
  constructor(
    readonly code:
      | 'EMPTY'
      | 'NOT_TEXT'
      | 'NOT_A_SHEET'
      | 'COLUMNS_MISSING'
      | 'COLUMN_TWICE'
      | 'NO_RECORDS'
      | 'WORKBOOK_DAMAGED'
      | 'WORKBOOK_TOO_LARGE',
    what: string,
    readonly remedy: string,
    /** Line of the file, where there is one. */
    readonly line: number | null = null,
  ) {
    super(`${line === null ? '' : `Line ${line}: `}${what} ${remedy}`);
    this.name = 'SheetError';
  }
}
