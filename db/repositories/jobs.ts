import { randomUUID } from 'node:crypto';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { type QueueName, queueOn } from '../queue';
import type { JobState } from '../schema/jobs';

/** Long work that somebody asked for. */
export interface Job {
  id: string;
  kind: QueueName;
  request: unknown;
  state: JobState;
  by: string;
  personId: string | null;
  /** ISO instants; null before. */
  requestedAt: string;
  startedAt: string | null;
  finishedAt: string | null;
  attempts: number;
  stage: string;
  done: number | null;
  whole: number | null;
  cancelledBy: string | null;
  outcome: unknown;
  message: string;
}

/** A job as lists have it: without what came of it, which may be long. */
export type JobLine = Omit<Job, 'outcome'>;

export interface NewJob {
  kind: QueueName;
  request: object;
  by: string;
  personId: string | null;
  /** True: refused while another one of its kind waits or runs. */
  alone: boolean;
}

/**
 * Puts a job into the queue, in the transaction that `db` is in. A worker begins with it when that is committed.
 *
 * @returns its id
 * @throws UserError where it must be alone and another one waits or runs: whose it is, and since when
 */
export async function putJob(
  db: StaffDatabase,
  { kind, request, by, personId, alone }: NewJob,
): Promise<string> {
  const id = randomUUID();
  const sql = db.$client;
  const stored = await sql`
    insert into surveillance.job (id, kind, request, alone, requested_by, person_id)
    values (${id}, ${kind}, ${jsonText(request)}::text::jsonb, ${alone}, ${by}, ${personId})
    on conflict (kind) where alone and finished_at is null do nothing`;
  if (stored.count === 0) {
    const [other] = await listJobs(db, { kinds: [kind], onlyOpen: true });
    throw new UserError(
      `${other?.by ?? 'Somebody'} has asked for this already${other ? ` (${other.requestedAt.slice(0, 16).replace('T', ' ')} UTC)` : ''}, and it is not at its end.`,
      'Follow that one, or cancel it first.',
    );
  }
  await queueOn(sql).send(kind, { job: id }, { id });
  return id;
}

/** A job, or null. */
export async function readJob(db: StaffDatabase, id: string): Promise<Job | null> {
  const [row] = await db.$client<Job[]>`
    select ${columns(db)}, outcome from surveillance.job where id::text = ${id}`;
  return row ?? null;
}

/** The newest job of a kind that was asked for these things, with what came of it; or null. */
export async function latestJob(db: StaffDatabase, kind: QueueName, about: object = {}): Promise<Job | null> {
  const [row] = await db.$client<Job[]>`
    select ${columns(db)}, outcome from surveillance.job
    where kind = ${kind} and request @> ${jsonText(about)}::text::jsonb
    order by requested_at desc, id limit 1`;
  return row ?? null;
}

export interface JobFilter {
  kinds?: readonly QueueName[];
  /** True: those alone that wait or run. */
  onlyOpen?: boolean;
  /** Default 20. */
  limit?: number;
}

/** Jobs, the newest first. */
export async function listJobs(
  db: StaffDatabase,
  { kinds, onlyOpen = false, limit = 20 }: JobFilter = {},
): Promise<JobLine[]> {
  return db.$client<JobLine[]>`
    select ${columns(db)} from surveillance.job
    where (${kinds === undefined} or kind = any(${[...(kinds ?? [])]})) and (${!onlyOpen} or finished_at is null)
    order by requested_at desc, id limit ${limit}`;
}

/**
 * Asks that a job end. One that waits ends at once; one that runs is ended by its worker, and what its transaction did
 * is taken back.
 *
 * @throws UserError where there is no such job or it is at its end
 */
export async function cancelJob(db: StaffDatabase, { id, by }: { id: string; by: string }): Promise<JobLine> {
  const sql = db.$client;
  const [row] = await sql<JobLine[]>`
    update surveillance.job set cancelled_by = coalesce(cancelled_by, ${by}),
      state = case state when 'waiting' then 'cancelled' else state end,
      finished_at = case state when 'waiting' then now() end
    where id::text = ${id} and finished_at is null
    returning ${columns(db)}`;
  if (!row) {
    throw new UserError('There is no such job that waits or runs.', 'It may have come to its end meanwhile.');
  }
  if (row.state === 'cancelled') await queueOn(sql).cancel(row.kind, id);
  return row;
}

/** Notes that a process begins with a job. Null where it is at its end or somebody asked that it end. */
export async function beginJob(db: StaffDatabase, id: string): Promise<JobLine | null> {
  const [row] = await db.$client<JobLine[]>`
    update surveillance.job set state = 'running', started_at = coalesce(started_at, now()), attempts = attempts + 1,
      stage = '', done = null, whole = null
    where id::text = ${id} and finished_at is null and cancelled_by is null
    returning ${columns(db)}`;
  return row ?? null;
}

/** How far a job is. */
export interface Progress {
  /** What is being done, in words. */
  stage: string;
  /** Parts that are done, of how many; null where they cannot be counted. */
  done: number | null;
  whole: number | null;
}

/** Notes how far a running job is. */
export async function noteProgress(
  db: StaffDatabase,
  id: string,
  { stage, done, whole }: Progress,
): Promise<void> {
  await db.$client`
    update surveillance.job set stage = ${stage}, done = ${done}, whole = ${whole}
    where id::text = ${id} and state = 'running'`;
}

/** How a job came to its end. */
export type JobEnd =
  | { state: 'done'; outcome: unknown }
  | { state: 'failed'; message: string }
  | { state: 'cancelled' };

/** Notes the end of a job; one that has one keeps it. */
export async function endJob(db: StaffDatabase, id: string, end: JobEnd): Promise<void> {
  const outcome = end.state === 'done' ? jsonText(end.outcome ?? null) : null;
  await db.$client`
    update surveillance.job set state = ${end.state}, finished_at = now(), outcome = ${outcome}::text::jsonb,
      message = ${end.state === 'failed' ? end.message : ''}
    where id::text = ${id} and finished_at is null`;
}

function columns(db: StaffDatabase) {
  const instant = (name: 'requested_at' | 'started_at' | 'finished_at') =>
    db.$client`to_char(${db.$client(name)} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`;
  return db.$client`
    id::text, kind, request, state, requested_by as by, person_id as "personId",
    ${instant('requested_at')} as "requestedAt", ${instant('started_at')} as "startedAt",
    ${instant('finished_at')} as "finishedAt", attempts, stage, done, whole, cancelled_by as "cancelledBy",
    message`;
}
