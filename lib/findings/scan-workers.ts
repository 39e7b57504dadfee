import { Worker } from 'node:worker_threads';
import { checkPermutations, StatsError } from '@/lib/stats/errors';
import { concludeScan } from '@/lib/stats/scan/conclude';
import type { ReplicateRange } from '@/lib/stats/scan/null-maxima';
import type { ScanPlan, ScanResult, ScanRun } from '@/lib/stats/scan/types';
import type { ScanReply, ScanRequest } from './scan-worker';

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
 * @param threads at least 1; more than the machine has cores gain nothing
 * @throws StatsError `bad argument` for the threads; a scan fails with the errors of `nullMaxima` and `concludeScan`
 * @cost about 0.2 s to start, once; each thread keeps a copy of the last plan (3,106 counties: 18 MB)
 * @example
 * const workers = startScanWorkers(2);
 * try { await workers.scan(planCircles(points, counts, 'bernoulli'), { seed: 1, replicates: 999 }); }
 * finally { await workers.close(); }
 */
export function startScanWorkers(threads: number): ScanWorkers {
  if (!(Number.isInteger(threads) && threads >= 1)) {
    throw new StatsError('bad argument', `Got ${threads} threads; expected an integer ≥ 1.`);
  }
  const waiting: Task[] = [];
  let ended: Error | null = null;
  const pool = Array.from({ length: threads }, () => startThread(end));

  return {
    async scan(plan, { seed, replicates, most }) {
      checkPermutations(replicates);
      const maxima = plan.shares.map(() => new Float64Array(replicates));
      const parts = ranges(seed, replicates).map(async (range) => {
        const part = await new Promise<Float64Array[]>((done, failed) => {
          waiting.push({ plan, range, done, failed });
        });
        for (const [share, each] of part.entries()) maxima[share]!.set(each, range.from);
      });
      handOut();
      await Promise.all(parts);
      return concludeScan(plan, maxima, most);
    },
    async close() {
      end(new Error('The threads of the scans were closed.'));
      await Promise.all(pool.map(({ worker }) => worker.terminate()));
    },
  };

  function handOut(): void {
    if (ended) end(ended);
    for (const thread of pool.filter(({ task }) => task === null)) {
      const task = waiting.shift();
      if (task) give(thread, task, handOut);
    }
  }

  /** Nothing is left waiting for a thread that will not answer. */
  function end(reason: Error): void {
    ended ??= reason;
    for (const { failed } of waiting.splice(0)) failed(ended);
    for (const { task } of pool) task?.failed(ended);
  }
}

/** Many enough that a thread's start with a plan weighs little, few enough that threads end at about the same time. */
const REPLICATES_AT_ONCE = 96;

interface Task {
  plan: ScanPlan;
  range: ReplicateRange;
  done: (maxima: Float64Array[]) => void;
  failed: (error: Error) => void;
}

interface Thread {
  worker: Worker;
  /** The last one it was sent. */
  plan: ScanPlan | null;
  task: Task | null;
}

function startThread(crashed: (error: Error) => void): Thread {
  // Without the flags of whoever starts it: those of a test runner or a server are none of its business.
  const worker = new Worker(new URL('./scan-thread.mjs', import.meta.url), { execArgv: [] });
  worker.on('error', crashed);
  return { worker, plan: null, task: null };
}

function give(thread: Thread, task: Task, freed: () => void): void {
  thread.task = task;
  thread.worker.once('message', (reply: ScanReply) => {
    thread.task = null;
    freed();
    if ('maxima' in reply) task.done(reply.maxima);
    else task.failed(new StatsError(reply.code, reply.message));
  });
  const request: ScanRequest = { range: task.range };
  if (thread.plan !== task.plan) request.plan = task.plan;
  thread.plan = task.plan;
  thread.worker.postMessage(request);
}

function ranges(seed: number, replicates: number): ReplicateRange[] {
  return Array.from({ length: Math.ceil(replicates / REPLICATES_AT_ONCE) }, (_, i) => ({
    seed,
    from: i * REPLICATES_AT_ONCE,
    to: Math.min(replicates, (i + 1) * REPLICATES_AT_ONCE),
  }));
}
