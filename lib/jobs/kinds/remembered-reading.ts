import { rememberReading } from '@/db/repositories/remember';
import { storedJudge } from '../stored-judge';
import { today } from '../today';
import type { Worker } from '../work';

/** Reads all rows of a laboratory that wait with one wording as a person explained it, and remembers that. */
export const rememberedReading: Worker<'remembered-reading'> = async ({ db, request, tell }) => {
  const { sheet: sheetId, ...explained } = request;
  const judging = await storedJudge(db, today());
  tell('Judging rows again');
  const rows = await rememberReading(db, { sheetId, ...explained }, judging, (done) =>
    tell(`Judging rows again (${done.toLocaleString('en')})`),
  );
  return { rows };
};
