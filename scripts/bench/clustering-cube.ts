import { getProgramme } from '@/db/repositories/programme';
import { runAnalysis } from '@/lib/jobs/run-analysis';
import type { Steps } from '../support/steps';
import { withDemoDatabase } from './demo-database';

/** Every test on every map of the demonstration: species × groups × windows × designs, on two threads, from the store to it. */
export async function benchCube(steps: Steps): Promise<void> {
  await withDemoDatabase(steps, async (staff) => {
    const programme = (await getProgramme(staff))!;
    const analyse = (seed: number) => runAnalysis(staff, { programme, by: 'benchmark', threads: 2, seed });
    await steps.run(
      'analysis: all maps, spreads and multiple resistance of the demonstration, 2 threads',
      async (detail) => {
        const { parts } = await analyse(1);
        detail(`${parts} parts`);
      },
    );
    await steps.run('analysis: again, nothing changed', async (detail) => {
      const { reused } = await analyse(1);
      detail(`${reused} parts kept`);
    });
  });
}
