/** Sheets in one document: more would keep a person waiting, and a printer. */
export const MOST_SHEETS = 500;
