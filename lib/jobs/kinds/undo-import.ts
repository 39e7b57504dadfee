import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { readImport, undoImport } from '@/db/repositories/imports';
import { today } from '../today';
import type { Worker } from '../work';

/** Undoes an import: all or nothing, in one transaction. */
export const undoSheet: Worker<'undo-import'> = async ({ db, request, by, tell }) => {
  const { sheet: sheetId, why } = request;
  const sheet = await readImport(db, sheetId);
  const rows = sheet ? sheet.accepted + sheet.inQuestion + sheet.refused : 0;
  tell('Taking rows out', 0, rows);
  await undoImport(db, {
    ...{ sheetId, why, by, definition: await currentCaseDefinition(db, today()) },
    onRows: (taken) => tell('Taking rows out', taken, rows),
  });
};
