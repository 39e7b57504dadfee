import postgres, { type Sql } from 'postgres';

/** How the process of a job ends where another one has its lock. */
export const RUNS_ELSEWHERE = 75;

/** A connection that holds the lock of a job for as long as its process lives. */
export interface JobLock {
  release: () => Promise<void>;
}

/**
 * Takes the lock of a job on a connection of its own, which the server frees when the process is gone, however busy it
 * was: within about a minute even where its machine vanished. Null where another process has it.
 */
export async function takeJobLock(url: string, id: string): Promise<JobLock | null> {
  const sql = postgres(url, { max: 1, connect_timeout: 10, idle_timeout: 0, onnotice: () => {} });
  await sql`select set_config('tcp_keepalives_idle', '20', false), set_config('tcp_keepalives_interval', '10', false),
    set_config('tcp_keepalives_count', '3', false)`;
  const [row] = await sql<{ taken: boolean }[]>`
    select pg_try_advisory_lock(hashtext('fencerow.job'), hashtext(${id})) as taken`;
  if (row!.taken) return { release: () => sql.end({ timeout: 5 }) };
  await sql.end();
  return null;
}

/** Whether a process has the lock of a job. */
export async function isLocked(sql: Sql, id: string): Promise<boolean> {
  const [row] = await sql<{ held: boolean }[]>`
    select exists (select from pg_locks where locktype = 'advisory' and granted
      and database = (select oid from pg_database where datname = current_database())
      and classid = (hashtext('fencerow.job')::bigint & 4294967295)::oid
      and objid = (hashtext(${id})::bigint & 4294967295)::oid) as held`;
  return row!.held;
}
