import PgBoss from 'pg-boss';
import type { Sql, TransactionSql } from 'postgres';

/** Kinds of long work, each with a queue of its own, so that a long one keeps no other kind waiting. */
export const QUEUE_NAMES = [
  'analysis',
  'stated-speed',
  'import',
  'undo-import',
  'remembered-reading',
  'case-definition',
  'release-draft',
  'finding-loss',
  'policy-consequences',
] as const;
export type QueueName = (typeof QUEUE_NAMES)[number];

/** How often a job is begun anew whose process was broken off. */
export const RETRIES = 2;

const SCHEMA = 'queue';
/** The library's longest: a job that still runs then is not taken to be lost (its lock says who runs it). */
const LONGEST_SECONDS = 23 * 3600;

/**
 * The queue over one of our own connections or transactions, so that what is put into it is kept or taken back with the
 * rest.
 *
 * @param work true for a worker: it looks after jobs that ended long ago too
 */
export function queueOn(sql: Sql | TransactionSql, { work = false }: { work?: boolean } = {}): PgBoss {
  return new PgBoss({ db: through(sql), schema: SCHEMA, migrate: false, supervise: work, schedule: false });
}

/** Makes the queue's schema or brings it up to date, as the owner; `sql` is one connection, no pool. */
export async function installQueue(sql: Sql): Promise<void> {
  const queue = new PgBoss({
    db: through(sql),
    schema: SCHEMA,
    migrate: true,
    supervise: false,
    schedule: false,
  });
  await queue.start();
  for (const name of QUEUE_NAMES) {
    await queue.createQueue(name, {
      name,
      retryLimit: RETRIES,
      retryDelay: 1,
      expireInSeconds: LONGEST_SECONDS,
    });
  }
  await queue.stop({ graceful: false, wait: false });
  await sql.unsafe(`
    revoke all on schema ${SCHEMA} from public;
    grant usage on schema ${SCHEMA} to fencerow_staff;
    grant select, insert, update, delete on all tables in schema ${SCHEMA} to fencerow_staff;`);
}

/** Our driver in the words of the library: the connection's other user has taken JSON and instants for texts. */
function through(sql: Sql | TransactionSql) {
  return {
    async executeSql(text: string, values: unknown[] = []) {
      // The library's own transactions want a connection to themselves.
      if (/^\s*begin\b/i.test(text) && 'reserve' in sql) return alone(sql, text);
      const result = await sql.unsafe(text, values.map(asSent) as never[]);
      const instants = (result.columns ?? []).filter(({ type }) => type === TIMESTAMPTZ);
      const rows = result.map((row) => ({
        ...row,
        ...Object.fromEntries(instants.map(({ name }) => [name, instantOf(row[name])])),
      }));
      return { rows };
    },
  };
}

async function alone(sql: Sql, text: string): Promise<{ rows: never[] }> {
  const connection = await sql.reserve();
  try {
    await connection.unsafe(text);
    return { rows: [] };
  } catch (error) {
    // What failed in the middle leaves its transaction open, and the next user of the connection in it.
    await connection.unsafe('rollback');
    throw error;
  } finally {
    connection.release();
  }
}

const TIMESTAMPTZ = 1184;

function asSent(value: unknown): unknown {
  if (value === undefined) return null;
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? JSON.stringify(value) : value;
}

function instantOf(text: string | null): Date | null {
  return text === null ? null : new Date(text.replace(' ', 'T').replace(/[+-]\d\d$/, '$&:00'));
}
