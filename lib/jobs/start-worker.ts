import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type PgBoss from 'pg-boss';
import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { QUEUE_NAMES, queueOn, RETRIES } from '@/db/queue';
import { endJob, type Job, listJobs, readJob } from '@/db/repositories/jobs';
import { isLocked, RUNS_ELSEWHERE } from './job-lock';

export interface WorkerOptions {
  /** Address of the database for the staff's role. */
  staffUrl: string;
  /** Told what it begins and how that ended, a line each. */
  say?: (line: string) => void;
  /** Between two looks into the queue, for jobs that lost their process, and at what somebody cancelled. Default 1000. */
  everyMs?: number;
  /** How long a job that was just taken from the queue may have no process yet. Default 20,000. */
  graceMs?: number;
}

export interface RunningWorker {
  /** Ends what is under way, which another worker (or this one, started again) then begins anew. */
  stop: () => Promise<void>;
}

/**
 * Works off the queue: one job of each kind at a time, each in a process of its own, so that it can be ended at any
 * point and a crash takes nothing else along. Any number of workers may run, on any machine that reaches the database.
 */
export async function startWorker({
  staffUrl,
  say = () => {},
  everyMs = 1_000,
  graceMs = 20_000,
}: WorkerOptions): Promise<RunningWorker> {
  const db = staffClient(staffUrl);
  const queue = queueOn(db.$client, { work: true });
  queue.on('error', (error) => say(`queue: ${error.message}`));
  await queue.start();
  const processes = new Set<ChildProcess>();
  const carry = (id: string) => inProcess({ db, staffUrl, processes, everyMs }, id);
  for (const kind of QUEUE_NAMES) {
    const polling = { pollingIntervalSeconds: Math.max(0.5, everyMs / 1_000) };
    await queue.work<{ job: string }>(kind, polling, async ([job]) => {
      say(`${kind} ${job!.id}: begun`);
      say(`${kind} ${job!.id}: ${await carry(job!.id)}`);
    });
  }
  const looking = setInterval(
    () => findLost(db, queue, graceMs).catch((error) => say(`lost jobs: ${error}`)),
    everyMs,
  );
  return {
    async stop() {
      clearInterval(looking);
      const ended = queue.stop({ graceful: true, timeout: 20_000, wait: true });
      for (const process of processes) process.kill('SIGKILL');
      await ended;
      await closeClient(db);
    },
  };
}

interface Shop {
  db: StaffDatabase;
  staffUrl: string;
  processes: Set<ChildProcess>;
  everyMs: number;
}

/** Runs a job to its end, or ends it where somebody asks so. @throws Error where its process broke off: begin it anew */
async function inProcess({ db, staffUrl, processes, everyMs }: Shop, id: string): Promise<string> {
  const child = fork(fileURLToPath(new URL('./job-process.mjs', import.meta.url)), [id], {
    execArgv: [],
    env: { ...process.env, FENCEROW_STAFF_URL: staffUrl },
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  processes.add(child);
  const exit = new Promise<number | NodeJS.Signals>((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code, signal) => resolve(code ?? signal!));
  });
  const watching = setInterval(async () => {
    const job = await readJob(db, id).catch(() => null);
    if (job?.cancelledBy) child.kill('SIGKILL');
  }, everyMs);
  try {
    const how = await exit;
    if (how === RUNS_ELSEWHERE) return 'carried out elsewhere';
    return await endOf(db, id, how);
  } finally {
    clearInterval(watching);
    processes.delete(child);
  }
}

async function endOf(db: StaffDatabase, id: string, how: number | NodeJS.Signals): Promise<string> {
  const job = await readJob(db, id);
  if (!job || job.finishedAt) return job?.state ?? 'gone';
  if (job.cancelledBy) {
    await endJob(db, id, { state: 'cancelled' });
    return `cancelled by ${job.cancelledBy}`;
  }
  if (job.attempts > RETRIES) {
    await endJob(db, id, { state: 'failed', message: givenUp(job) });
    return 'given up';
  }
  throw new Error(`its process ended (${how}) before the job did`);
}

/** Gives back to the queue what it takes to be under way and has no process any more: its worker was ended with it. */
async function findLost(db: StaffDatabase, queue: PgBoss, graceMs: number): Promise<void> {
  for (const { id, kind, requestedAt } of await listJobs(db, { onlyOpen: true, limit: 100 })) {
    const queued = await queue.getJobById(kind, id);
    // Asked for outside a transaction, it is there a moment before the queue has it.
    if (!queued && Date.now() - Date.parse(requestedAt) < graceMs) continue;
    const isFresh = queued?.state === 'active' && Date.now() - queued.startedOn.getTime() < graceMs;
    const isQueued = queued?.state === 'created' || queued?.state === 'retry';
    if (isFresh || isQueued || (await isLocked(db.$client, id))) continue;
    // It may have come to its end between the looks.
    const job = await readJob(db, id);
    if (!job || job.finishedAt) continue;
    if (job.cancelledBy) await endJob(db, id, { state: 'cancelled' });
    else if (queued?.state === 'active' && job.attempts <= RETRIES) await queue.fail(kind, id);
    else await endJob(db, id, { state: 'failed', message: givenUp(job) });
  }
}

function givenUp({ attempts }: Job): string {
  return `It was broken off ${attempts} times and is given up. What it stored on the way is kept; the log of the worker says more.`;
}
