/** What one thread of `scan-workers.ts` does: the replicates it is sent, of the plan it was sent last. */
import { parentPort } from 'node:worker_threads';
// Relative, because the alias is known only where a process was started in the project's folder.
import { StatsError } from '../stats/errors';
import { nullMaxima, type ReplicateRange } from '../stats/scan/null-maxima';
import type { ScanPlan } from '../stats/scan/types';

export interface ScanRequest {
  /** Left out where it is the last one again. */
  plan?: ScanPlan;
  range: ReplicateRange;
}

export type ScanReply = { maxima: Float64Array[] } | { code: StatsError['code']; message: string };

let plan: ScanPlan;

parentPort!.on('message', (request: ScanRequest) => {
  plan = request.plan ?? plan;
  parentPort!.postMessage(reply(request.range));
});

/** An error loses its class on the way to another thread, so a typed one is sent in its parts. */
function reply(range: ReplicateRange): ScanReply {
  try {
    return { maxima: nullMaxima(plan, range) };
  } catch (error) {
    if (error instanceof StatsError) return { code: error.code, message: error.message };
    throw error;
  }
}
