import type { MapAnalysis, MapTask } from '../analysis/types';
import { startThreads } from './thread-pool';

/**
 * Analyses maps on several threads. Each map has a seed of its own, so what comes out is the same whatever their number.
 *
 * @param threads as for `startThreads`
 * @param done told of each analysis as soon as it is there, in no fixed order, one at a time; the next maps go on
 *   meanwhile
 * @throws the first error of a thread or of `done`; no further map is begun then
 */
export async function analyseMaps(
  tasks: readonly MapTask[],
  threads: number,
  done: (analysis: MapAnalysis, task: MapTask) => Promise<void>,
): Promise<void> {
  const pool = startThreads<MapTask, MapAnalysis>('./map-thread.ts', threads);
  let storing = Promise.resolve();
  try {
    await Promise.all(
      tasks.map(async (task) => {
        const analysis = await pool.ask(() => task);
        storing = storing.then(() => done(analysis, task));
        await storing;
      }),
    );
  } finally {
    await pool.close();
  }
}
