/**
 * The process of one job: takes its lock, carries it out, notes what came of it. It is started by a worker
 * (`start-worker.ts`) with the job's id, and ends with it: at once where the worker is gone.
 */
import { carryOut } from './carry-out';
import { RUNS_ELSEWHERE } from './job-lock';

process.on('disconnect', () => process.exit(1));
try {
  const ran = await carryOut(process.env.FENCEROW_STAFF_URL!, process.argv[2]!);
  process.exit(ran ? 0 : RUNS_ELSEWHERE);
} catch (error) {
  process.stderr.write(`job ${process.argv[2]}: ${error instanceof Error ? error.stack : String(error)}\n`);
  process.exit(1);
}
