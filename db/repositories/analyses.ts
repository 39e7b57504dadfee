import { createHash } from 'node:crypto';
import type { MapAnalysis, MapKey, MapTask } from '@/lib/findings/analysis/types';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';

export interface Analysis {
  id: number;
  version: string;
  seed: number;
  maps: number;
  /** ISO instants; not finished: null. */
  startedAt: string;
  startedBy: string;
  finishedAt: string | null;
}

export interface OpenAnalysis {
  id: number;
  /** True where an unfinished one with the same input goes on. */
  isResumed: boolean;
  /** Maps that still have to be made. */
  waiting: MapTask[];
  /** Maps that an earlier finished analysis had already made from the same input. */
  reused: number;
}

/**
 * Opens an analysis of these maps: goes on with an unfinished one of the same input, methods and seed, else begins one and
 * takes over what the last finished one of the same methods and seed has made from the same input. Unfinished ones of other
 * input are deleted: their counts are not those of the store any more.
 */
export async function openAnalysis(
  db: StaffDatabase,
  { tasks, version, seed, by }: { tasks: readonly MapTask[]; version: string; seed: number; by: string },
): Promise<OpenAnalysis> {
  const digests = tasks.map((task) => `${keyText(task)} ${digestOf(task)}`);
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
        insert into surveillance.analysis (version, seed, digest, maps, started_by)
        values (${version}, ${seed}, ${digest}, ${tasks.length}, ${by}) returning id`;
      const taken = await sql`
        insert into surveillance.map_analysis
        select ${id}, species, group_number, first_season, last_season, design, m.digest, verdict, result
        from surveillance.map_analysis m
        where analysis_id = (
            select max(a.id) from surveillance.analysis a
            where a.finished_at is not null and a.version = ${version} and a.seed = ${seed}
          )
          and concat_ws('|', species, group_number, first_season, last_season, design) || ' ' || m.digest = any(${digests})`;
      reused = taken.count;
    }
    const made = await sql<{ key: string }[]>`
      select concat_ws('|', species, group_number, first_season, last_season, design) as key
      from surveillance.map_analysis where analysis_id = ${id}`;
    const isMade = new Set(made.map(({ key }) => key));
    const waiting = tasks.filter((task) => !isMade.has(keyText(task)));
    return { id, isResumed: open !== undefined, waiting, reused };
  });
}

/** Stores one map of an open analysis. */
export async function storeMap(
  db: StaffDatabase,
  id: number,
  { analysis, task }: { analysis: MapAnalysis; task: MapTask },
): Promise<void> {
  const { species, group, period, design } = analysis;
  await db.$client`
    insert into surveillance.map_analysis values (
      ${id}, ${species}, ${group}, ${period.first}, ${period.last}, ${design ?? ''}, ${digestOf(task)},
      ${analysis.clustering.verdict}, ${jsonText(analysis)}::text::jsonb)
    on conflict do nothing`;
}

/** Closes an analysis all of whose maps are made. The one before stays for comparison; older ones are deleted. */
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
    select id, version, seed::float8 as seed, maps, started_by as "startedBy",
      to_char(started_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "startedAt",
      to_char(finished_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "finishedAt"
    from surveillance.analysis where finished_at is not null order by id desc`;
}

/** Maps of an analysis, in the order of their keys; all of them where no filter is given. */
export async function readMaps(
  db: StaffDatabase,
  id: number,
  { species = null, group = null }: { species?: string | null; group?: number | null } = {},
): Promise<MapAnalysis[]> {
  const rows = await db.$client<{ result: MapAnalysis }[]>`
    select result from surveillance.map_analysis
    where analysis_id = ${id} and (${species}::text is null or species = ${species})
      and (${group}::int is null or group_number = ${group})
    order by species, group_number, first_season, last_season, design`;
  return rows.map(({ result }) => result);
}

function keyText({ species, group, period, design }: MapKey): string {
  return [species, group, period.first, period.last, design ?? ''].join('|');
}

/** Of everything that the tests and the sentences look at. */
function digestOf(task: MapTask): string {
  return once(task, () => {
    const { neighbours, points, placeNames, ...own } = task;
    const shared = [neighbours, points, placeNames].map((table) => once(table, () => sha256(jsonOf(table))));
    return sha256(jsonOf(own) + shared.join(''));
  });
}

/** A map is read when an analysis is opened and again when it is stored; all of one grain share what is said of the region. */
const DIGESTS = new WeakMap<object, string>();

function once(of: object, make: () => string): string {
  const digest = DIGESTS.get(of) ?? make();
  DIGESTS.set(of, digest);
  return digest;
}

function jsonOf(value: unknown): string {
  return JSON.stringify(value, (_, inner) => (inner instanceof Map ? [...inner] : inner));
}

function sha256(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}
