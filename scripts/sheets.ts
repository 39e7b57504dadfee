/**
 * `npm run sheets`: the imports, their runs and history, and undoing one that is in no release yet.
 */
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { readHistory } from '@/db/repositories/history';
import { listImports, undoImport } from '@/db/repositories/imports';
import { listRuns } from '@/db/repositories/runs';
import { UsageError } from './support/command';
import { readNumber, today } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE =
  'npm run sheets -- [list] | runs | history IMPORT [RECORD] | undo IMPORT --why TEXT [--by NAME]   (runs: those that name checks of their own, void ones first)';

await staffCommand(
  USAGE,
  { why: { type: 'string' }, by: { type: 'string' } },
  async (db, { values, words }) => {
    const [act = 'list', first, second] = words;
    if (act === 'undo') {
      if (!values.why) throw new UsageError(`Say why with --why TEXT.\nUsage: ${USAGE}`);
      const sheetId = readNumber(first, 'IMPORT', USAGE);
      const definition = await currentCaseDefinition(db, today());
      await undoImport(db, { sheetId, definition, by: actor(values.by), why: values.why });
      return say(`Import ${sheetId} was undone: its rows are kept and count no longer.`);
    }
    if (act === 'history') {
      const sheetId = readNumber(first, 'IMPORT', USAGE);
      const of =
        second === undefined ? { sheetId } : { sheetId, record: readNumber(second, 'RECORD', USAGE) };
      for (const { at, by, what, record, why } of await readHistory(db, of)) {
        const which = record === null ? '' : ` record ${record}`;
        say(`${at.toISOString()}  ${by}: ${what}${which}${why ? ` (${why})` : ''}`);
      }
      return;
    }
    if (act === 'runs') {
      const runs = await listRuns(db.$client);
      if (runs.length === 0) say('No run with checks of its own has been brought in yet.');
      for (const { laboratory, name, valid, why } of runs)
        say(`${valid ? 'counts' : 'void  '}  ${name} (${laboratory}): ${why}`);
      return;
    }
    if (act !== 'list') throw new UsageError(`Usage: ${USAGE}`);
    const sheets = await listImports(db);
    if (sheets.length === 0) say('No sheet has been imported yet: npm run import -- SHEET');
    for (const { id, fileName, laboratory, importedAt, importedBy, undoneAt, ...counts } of sheets) {
      const { accepted, inQuestion, refused } = counts;
      say(
        `${id}  ${importedAt.toISOString().slice(0, 16)}  ${fileName}  (${laboratory}${importedBy ? `, by ${importedBy}` : ''}): ` +
          `${accepted} accepted, ${inQuestion} in question, ${refused} refused${undoneAt ? ` — undone ${undoneAt.toISOString().slice(0, 16)}` : ''}`,
      );
    }
  },
);
