import type { AnalysisPart, AnalysisTask } from '../analysis/types';
import { startThreads } from './thread-pool';

/**
 * Analyses parts on several threads. Each has a seed of its own, so what comes out is the same whatever their number.
 *
 * @param threads as for `startThreads`
 * @param done told of each analysis as soon as it is there, in no fixed order, one at a time; the next ones go on
 *   meanwhile
 * @throws the first error of a thread or of `done`; none is begun then
 */
export async function analyseParts(
  tasks: readonly AnalysisTask[],
  threads: number,
  done: (part: AnalysisPart, task: AnalysisTask) => Promise<void>,
): Promise<void> {
  const pool = startThreads<AnalysisTask, AnalysisPart>('./part-thread.ts', threads);
  let storing = Promise.resolve();
  try {
    await Promise.all(
      tasks.map(async (task) => {
        const part = await pool.ask(() => task);
        storing = storing.then(() => done(part, task));
        await storing;
      }),
    );
  } finally {
    await pool.close();
  }
}
