import { checkPermutations } from '@/lib/stats/errors';
import { concludeScan } from '@/lib/stats/scan/conclude';
import type { ReplicateRange } from '@/lib/stats/scan/null-maxima';
import type { ScanPlan, ScanResult, ScanRun } from '@/lib/stats/scan/types';
import type { ScanQuestion } from './scan-thread';
import { startThreads } from './thread-pool';

export interface ScanWorkers {
  /** As `scanCircles` and its like from the plan on. Scans may overlap; they are done in their order. */
  scan(plan: ScanPlan, run: ScanRun): Promise<ScanResult>;
  /** Ends the threads; scans that are not done fail. Without it the process does not end. */
  close(): Promise<void>;
}

/**
 * Threads that share the replicates of scans. Each replicate has a seed of its own, so the result is that of one
 * thread, to the last bit, whatever the number of threads and whoever is faster.
 *
 * @param threads as for `startThreads`
 * @throws StatsError as `startThreads`; a scan fails with the errors of `nullMaxima` and `concludeScan`
 * @cost each thread keeps a copy of the last plan (3,106 counties: 18 MB)
 * @example
 * const workers = startScanWorkers(2);
 * try { await workers.scan(planCircles(points, counts, 'bernoulli'), { seed: 1, replicates: 999 }); }
 * finally { await workers.close(); }
 */
export function startScanWorkers(threads: number): ScanWorkers {
  const pool = startThreads<ScanQuestion, Float64Array[]>('./scan-thread.ts', threads);
  const planOf = new WeakMap<object, ScanPlan>();
  const question = (plan: ScanPlan, range: ReplicateRange) => (thread: object) => {
    const isKnown = planOf.get(thread) === plan;
    planOf.set(thread, plan);
    return isKnown ? { range } : { range, plan };
  };
  return {
    async scan(plan, { seed, replicates, most }) {
      checkPermutations(replicates);
      const maxima = plan.shares.map(() => new Float64Array(replicates));
      await Promise.all(
        ranges(seed, replicates).map(async (range) => {
          const part = await pool.ask(question(plan, range));
          for (const [share, each] of part.entries()) maxima[share]!.set(each, range.from);
        }),
      );
      return concludeScan(plan, maxima, most);
    },
    close: () => pool.close(),
  };
}

/** Many enough that a thread's start with a plan weighs little, few enough that threads end at about the same time. */
const REPLICATES_AT_ONCE = 96;

function ranges(seed: number, replicates: number): ReplicateRange[] {
  return Array.from({ length: Math.ceil(replicates / REPLICATES_AT_ONCE) }, (_, i) => ({
    seed,
    from: i * REPLICATES_AT_ONCE,
    to: Math.min(replicates, (i + 1) * REPLICATES_AT_ONCE),
  }));
}
