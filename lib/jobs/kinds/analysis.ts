import { programmeOf } from '../programme-of';
import { runAnalysis } from '../run-analysis';
import type { Worker } from '../work';

/** Analyses the programme anew; parts that were made before a crash or a cancelling are not made again. */
export const analysis: Worker<'analysis'> = async ({ db, by, tell }) => {
  tell('Reading what is stored');
  const programme = await programmeOf(db);
  return runAnalysis(db, {
    programme,
    by,
    onProgress: (done, all) => tell('Testing maps and spread', done, all),
  });
};
