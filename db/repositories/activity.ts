import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';

/** Something that was done, to be written down. */
export interface Act {
  /** Null where no account acted. */
  personId: string | null;
  by: string;
  /** The right that was used, or what happened to an account. */
  what: string;
  /** To what, in words. */
  about?: string;
  details?: Record<string, unknown>;
}

/** A line of the log. */
export interface ActivityLine extends Required<Act> {
  id: number;
  /** ISO instant. */
  at: string;
}

/** Which lines; what is left out is not asked. */
export interface ActivityFilter {
  by?: string;
  what?: string;
  /** Some letters of what it was about. */
  about?: string;
  /** ISO days, both included, in UTC. */
  from?: string;
  to?: string;
  /** Only lines before this one. */
  before?: number;
  limit?: number;
}

/** Writes down what was done; it stays for ever. */
export async function addActivity(db: StaffDatabase, act: Act): Promise<void> {
  const { personId, by, what, about = '', details = {} } = act;
  await db.$client`
    insert into access.activity (person_id, done_by, what, about, details)
    values (${personId}, ${by}, ${what}, ${about}, ${jsonText(details)}::text::jsonb)`;
}

/** What was done, newest first, at most `limit` lines (100). */
export async function listActivity(db: StaffDatabase, filter: ActivityFilter = {}): Promise<ActivityLine[]> {
  const { by = null, what = null, about = null, from = null, to = null, before = null, limit = 100 } = filter;
  return db.$client<ActivityLine[]>`
    select id::float8 as id, to_char(at at time zone 'utc', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as at,
      person_id as "personId", done_by as by, what, about, details
    from access.activity
    where (${by}::text is null or done_by = ${by}) and (${what}::text is null or what = ${what})
      and (${about}::text is null or position(lower(${about}) in lower(about)) > 0)
      and (${from}::date is null or at >= ${from}::date at time zone 'utc')
      and (${to}::date is null or at < (${to}::date + 1) at time zone 'utc')
      and (${before}::bigint is null or id < ${before})
    order by id desc limit ${limit}`;
}

/** Who did something so far, and what kinds of things were done: what the filters offer. */
export async function activityChoices(db: StaffDatabase): Promise<{ by: string[]; what: string[] }> {
  const [row] = await db.$client<{ by: string[] | null; what: string[] | null }[]>`
    select (select array_agg(distinct done_by order by done_by) from access.activity) as by,
      (select array_agg(distinct what order by what) from access.activity) as what`;
  return { by: row?.by ?? [], what: row?.what ?? [] };
}

/** How often something happened to something in the last minutes. */
export async function countRecent(
  db: StaffDatabase,
  { what, about, minutes }: { what: string; about: string; minutes: number },
): Promise<number> {
  const [row] = await db.$client<{ count: number }[]>`
    select count(*)::int as count from access.activity
    where at > now() - make_interval(mins => ${minutes}) and what = ${what} and about = ${about}`;
  return row!.count;
}
