import { createHash } from 'node:crypto';
import type { AnalysisPart, AnalysisTask } from '@/lib/findings/analysis/types';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';

export interface Analysis {
  id: number;
  version: string;
  seed: number;
  parts: number;
  /** ISO instants; not finished: null. */
  startedAt: string;
  startedBy: string;
  finishedAt: string | null;
}

export interface OpenAnalysis {
  id: number;
  /** True where an unfinished one with the same input goes on. */
  isResumed: boolean;
  /** Parts that still have to be made. */
  waiting: AnalysisTask[];
  /** Parts that an earlier finished analysis had already made from the same input. */
  reused: number;
}

/**
 * Opens an analysis of these parts: goes on with an unfinished one of the same input, methods and seed, else begins one and
 * takes over what the last finished one of the same methods and seed has made from the same input. Unfinished ones of other
 * input are deleted: their counts are not those of the store any more.
 */
export async function openAnalysis(
  db: StaffDatabase,
  { tasks, version, seed, by }: { tasks: readonly AnalysisTask[]; version: string; seed: number; by: string },
): Promise<OpenAnalysis> {
  const digests = tasks.map((task) => `${labelOf(task)} ${digestOf(task)}`);
  const digest = sha256(digests.join('\n'));
  return db.$client.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(hashtext('fencerow.analysis'))`;
    await sql`
      delete from surveillance.analysis
      where finished_at is null and (digest, version, seed) is distinct from (${digest}, ${version}, ${seed}::bigint)`;
    const [open] = await sql<{ id: number }[]>`
      select id from surveillance.analysis where finished_at is null order by id desc limit 1`;
    let id = open?.id;
    let reused = 0;
    if (id === undefined) {
      [{ id }] = await sql<[{ id: number }]>`
        insert into surveillance.analysis (version, seed, digest, parts, started_by)
        values (${version}, ${seed}, ${digest}, ${tasks.length}, ${by}) returning id`;
      const taken = await sql`
        insert into surveillance.analysis_part
        select ${id}, kind, key, species, group_number, part.digest, result
        from surveillance.analysis_part part
        where analysis_id = (
            select max(a.id) from surveillance.analysis a
            where a.finished_at is not null and a.version = ${version} and a.seed = ${seed}
          )
          and kind || ' ' || key || ' ' || part.digest = any(${digests})`;
      reused = taken.count;
    }
    const made = await sql<{ label: string }[]>`
      select kind || ' ' || key as label from surveillance.analysis_part where analysis_id = ${id}`;
    const isMade = new Set(made.map(({ label }) => label));
    const waiting = tasks.filter((task) => !isMade.has(labelOf(task)));
    return { id, isResumed: open !== undefined, waiting, reused };
  });
}

/** Stores one part of an open analysis. */
export async function storePart(
  db: StaffDatabase,
  id: number,
  { part, task }: { part: AnalysisPart; task: AnalysisTask },
): Promise<void> {
  const group = part.kind === 'multiple' ? null : part.group;
  await db.$client`
    insert into surveillance.analysis_part values (
      ${id}, ${part.kind}, ${keyText(task)}, ${part.species}, ${group}, ${digestOf(task)},
      ${jsonText(part)}::text::jsonb)
    on conflict do nothing`;
}

/** Closes an analysis all of whose parts are made. The one before stays for comparison; older ones are deleted. */
export async function finishAnalysis(db: StaffDatabase, id: number): Promise<void> {
  await db.$client.begin(async (sql) => {
    await sql`update surveillance.analysis set finished_at = now() where id = ${id} and finished_at is null`;
    await sql`
      delete from surveillance.analysis where finished_at is not null and id not in (
        select id from surveillance.analysis where finished_at is not null order by id desc limit 2)`;
  });
}

/** The finished analyses, newest first. */
export async function listAnalyses(db: StaffDatabase): Promise<Analysis[]> {
  return db.$client<Analysis[]>`
    select id, version, seed::float8 as seed, parts, started_by as "startedBy",
      to_char(started_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "startedAt",
      to_char(finished_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "finishedAt"
    from surveillance.analysis where finished_at is not null order by id desc`;
}

/**
 * Parts of one kind of an analysis, in the order of their keys; all of them where no filter is given. A group leaves
 * out parts that are of all groups together.
 */
export async function readParts<Kind extends AnalysisPart['kind']>(
  db: StaffDatabase,
  id: number,
  { kind, species = null, group = null }: { kind: Kind; species?: string | null; group?: number | null },
): Promise<Extract<AnalysisPart, { kind: Kind }>[]> {
  const rows = await db.$client<{ result: Extract<AnalysisPart, { kind: Kind }> }[]>`
    select result from surveillance.analysis_part
    where analysis_id = ${id} and kind = ${kind} and (${species}::text is null or species = ${species})
      and (${group}::int is null or group_number = ${group})
    order by species, group_number, key`;
  return rows.map(({ result }) => result);
}

function labelOf(task: AnalysisTask): string {
  return `${task.kind} ${keyText(task)}`;
}

/** Sorts as its parts do: seasons have four digits, and all designs together come first. */
function keyText(task: AnalysisTask): string {
  const design = task.design ?? '';
  if (task.kind === 'multiple') return [task.species, design].join('|');
  if (task.kind === 'spread') return [task.species, task.group, design].join('|');
  return [task.species, task.group, task.period.first, task.period.last, design].join('|');
}

/** Of everything that the methods and the sentences look at, each table of it read once, whichever parts share it. */
function digestOf(task: AnalysisTask): string {
  return once(task, () =>
    sha256(
      Object.entries(task)
        .sort(([a], [b]) => (a < b ? -1 : 1))
        .map(
          ([name, value]) =>
            `${name} ${isTable(value) ? once(value, () => sha256(jsonOf(value))) : jsonOf(value)}`,
        )
        .join('\n'),
    ),
  );
}

function isTable(value: unknown): value is object {
  return typeof value === 'object' && value !== null;
}

const DIGESTS = new WeakMap<object, string>();

function once(of: object, make: () => string): string {
  const digest = DIGESTS.get(of) ?? make();
  DIGESTS.set(of, digest);
  return digest;
}

function jsonOf(value: unknown): string {
  return JSON.stringify(value ?? null, (_, inner) => (inner instanceof Map ? [...inner] : inner));
}

function sha256(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}
