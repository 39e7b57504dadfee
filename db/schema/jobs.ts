import { sql } from 'drizzle-orm';
import {
  boolean,
  check,
  index,
  integer,
  jsonb,
  text,
  timestamp,
  uniqueIndex,
  uuid,
} from 'drizzle-orm/pg-core';
import { surveillance } from './surveillance';

/** How far a job is. */
export type JobState = 'waiting' | 'running' | 'done' | 'failed' | 'cancelled';

const instant = (name: string) => timestamp(name, { withTimezone: true });

/**
 * Long work that somebody asked for: what it is, how far it is, what came of it. Which worker takes it when is the
 * queue's business (`db/queue.ts`); this stays when the queue has forgotten it.
 */
export const job = surveillance.table(
  'job',
  {
    id: uuid().primaryKey(),
    kind: text().notNull(),
    /** What was asked for, as the kind's schema has it. */
    request: jsonb().notNull().$type<unknown>(),
    state: text().notNull().$type<JobState>().default('waiting'),
    /** True: no second one of its kind may wait or run beside it. */
    alone: boolean().notNull().default(false),
    requestedBy: text('requested_by').notNull(),
    personId: text('person_id'),
    requestedAt: instant('requested_at').notNull().defaultNow(),
    startedAt: instant('started_at'),
    finishedAt: instant('finished_at'),
    /** How often a process began with it: more than once where one was broken off. */
    attempts: integer().notNull().default(0),
    /** What is being done now, in words. */
    stage: text().notNull().default(''),
    /** Parts that are done, of how many; null where they cannot be counted. */
    done: integer(),
    whole: integer(),
    /** Who asked that it end. */
    cancelledBy: text('cancelled_by'),
    /** What came of it, where it is done. */
    outcome: jsonb().$type<unknown>(),
    /** Why it failed, in words for whoever asked. */
    message: text().notNull().default(''),
  },
  (t) => [
    check('job_state', sql`${t.state} in ('waiting', 'running', 'done', 'failed', 'cancelled')`),
    check(
      'job_finished',
      sql`(${t.finishedAt} is not null) = (${t.state} in ('done', 'failed', 'cancelled'))`,
    ),
    uniqueIndex('job_alone').on(t.kind).where(sql`${t.alone} and ${t.finishedAt} is null`),
    index('job_requested').on(t.requestedAt),
  ],
);
