/**
 * `npm run correct`: corrects or retracts a record that was imported. Its earlier reading stays in the history.
 */
import { populationOfRecord } from '@/db/repositories/facts';
import type { Answer } from '@/db/schema/intake';
import { amendStored } from '@/lib/jobs/amend-stored';
import { outlookOf } from '@/lib/jobs/outlook';
import { outlookWords } from '@/lib/jobs/outlook-words';
import { amendedLines } from './support/amended-lines';
import { UsageError } from './support/command';
import { readCells, readNumber } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = 'npm run correct -- IMPORT RECORD COLUMN=TEXT … | --retract, --why TEXT [--by NAME]';

await staffCommand(
  USAGE,
  {
    retract: { type: 'boolean' },
    why: { type: 'string' },
    by: { type: 'string' },
  },
  async (db, { values, words }) => {
    const [sheetId, record, ...cells] = words;
    if (!values.why) throw new UsageError(`Say why with --why TEXT.\nUsage: ${USAGE}`);
    if (cells.length > 0 === (values.retract ?? false)) throw new UsageError(`Usage: ${USAGE}`);
    const answer: Answer = values.retract
      ? { kind: 'dropped' }
      : { kind: 'reads', cells: readCells(cells, USAGE) };
    const place = {
      sheetId: readNumber(sheetId, 'IMPORT', USAGE),
      record: readNumber(record, 'RECORD', USAGE),
    };
    const before = await populationOfRecord(db, place);
    const amended = await amendStored(db, {
      ...place,
      answer,
      by: actor(values.by),
      why: values.why,
      question: null,
      remember: false,
    });
    for (const line of amendedLines(amended)) say(line);
    const population = (await populationOfRecord(db, place)) ?? before;
    for (const line of outlookWords(await outlookOf(db, population ? [population] : []))) say(`  ${line}`);
  },
);
