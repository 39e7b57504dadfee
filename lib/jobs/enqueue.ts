import type { StaffDatabase } from '@/db/clients/staff';
import type { QueueName } from '@/db/queue';
import { putJob } from '@/db/repositories/jobs';
import { JOB_KINDS, type RequestOf } from './kinds';

export interface JobOrder<Kind extends QueueName> {
  kind: Kind;
  request: RequestOf<Kind>;
  /** Who asks, by name, and their account; null for a command. */
  by: string;
  personId: string | null;
}

/**
 * Asks for long work, in the transaction that `db` is in (inside `staffAction`: together with the line in the log). A
 * worker takes it up within a second or two; follow it with `readJob`, end it with `cancelJob` (`db/repositories/jobs`).
 *
 * @returns the id of the job
 * @throws UserError where one of its kind waits or runs already, and its kind allows one alone; ZodError for a request
 *   that is none
 */
export async function enqueue<Kind extends QueueName>(
  db: StaffDatabase,
  { kind, request, by, personId }: JobOrder<Kind>,
): Promise<string> {
  const { alone, request: schema } = JOB_KINDS[kind];
  return putJob(db, { kind, request: schema.parse(request) as object, by, personId, alone });
}
