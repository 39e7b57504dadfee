import { closeClient, type StaffDatabase, staffClient } from '@/db/clients';
import { UserError } from '@/db/errors';
import type { QueueName } from '@/db/queue';
import { beginJob, endJob, type JobLine, noteProgress, type Progress } from '@/db/repositories/jobs';
import { SheetError } from '@/lib/intake/sheet-error';
import { takeJobLock } from './job-lock';
import { JOB_KINDS } from './kinds';
import { WORKERS, type Worker } from './work';

/** Between two notes of how far a job is. */
const NOTE_EVERY_MS = 300;

/**
 * Carries out a job and notes how it ended. An error that a person can put right is its end; a lost connection is not,
 * and is thrown, so that it is begun anew.
 *
 * @returns false where another process carries it out, or where it is at its end
 */
export async function carryOut(staffUrl: string, id: string): Promise<boolean> {
  const lock = await takeJobLock(staffUrl, id);
  if (!lock) return false;
  const db = staffClient(staffUrl);
  try {
    const job = await beginJob(db, id);
    if (!job) return false;
    try {
      await endJob(db, id, { state: 'done', outcome: await run(db, job) });
    } catch (error) {
      if (isLostConnection(error)) throw error;
      if (!isKnown(error)) process.stderr.write(`job ${id}: ${(error as Error).stack ?? String(error)}\n`);
      await endJob(db, id, { state: 'failed', message: isKnown(error) ? error.message : DEFECT });
    }
    return true;
  } finally {
    await closeClient(db);
    await lock.release();
  }
}

const DEFECT =
  'Something went wrong that should not. What was stored before is as it was; the log of the worker says more.';

async function run(db: StaffDatabase, { id, kind, request, by, personId }: JobLine): Promise<unknown> {
  const worker = (await WORKERS[kind]()) as Worker<QueueName>;
  const notes = noteKeeper((progress) => noteProgress(db, id, progress));
  const outcome = await worker({
    ...{ db, by, personId },
    request: JOB_KINDS[kind].request.parse(request),
    tell: (stage, done, whole) => notes.tell({ stage, done: done ?? null, whole: whole ?? null }),
  });
  await notes.last();
  return outcome;
}

/** Writes the newest of what it is told, one note at a time and not too often. */
function noteKeeper(write: (progress: Progress) => Promise<void>) {
  let newest: Progress | null = null;
  let writing: Promise<void> | null = null;
  const go = async () => {
    while (newest) {
      const note = newest;
      newest = null;
      await write(note);
      await new Promise((resolve) => setTimeout(resolve, NOTE_EVERY_MS));
    }
    writing = null;
  };
  return {
    tell(progress: Progress): void {
      newest = progress;
      writing ??= go();
      // What cannot be noted shows where the outcome is.
      writing.catch(() => {});
    },
    async last(): Promise<void> {
      await writing?.catch(() => {});
    },
  };
}

function isKnown(error: unknown): error is Error {
  return error instanceof UserError || error instanceof SheetError;
}

const LOST = /^(CONNECTION_|CONNECT_|ECONN|EPIPE|57P0[123]$|08)/;

function isLostConnection(error: unknown): boolean {
  const { code, cause } = error as { code?: string; cause?: { code?: string } };
  return LOST.test(code ?? '') || LOST.test(cause?.code ?? '');
}
