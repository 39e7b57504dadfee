import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import type { Fact } from '@/lib/cube/types';
import type { PlaceTree } from '@/lib/disclosure/places';
import { releasedCubeFromStore } from '@/lib/disclosure/released';
import type { AuditReport, ReleasedCell } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { Waiting } from '@/lib/release/revision/types';
import type { ReleaseDraft } from '@/lib/release/types';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import type { DraftState } from '../schema/drafts';
import { addHistory } from './history';
import { lockImports } from './lock';
import type { ReleaseBasis } from './release-basis';
import { releaseState } from './release-state';
import { nextNumber, type PackedFile, storeRelease } from './releases';

/** A release that is built and audited, with what whoever decides should know. */
export interface NewDraft<Report> {
  /** The number that its files bear. */
  number: number;
  draft: ReleaseDraft;
  audit: AuditReport;
  basis: ReleaseBasis;
  files: readonly PackedFile[];
  /** `releaseState` as it was when it was begun. */
  made: string;
  report: Report;
  by: string;
  personId: string | null;
}

/** A draft, without what publishing it stores. */
export interface StoredDraft<Report = unknown> {
  id: number;
  state: DraftState;
  number: number;
  /** ISO day. */
  date: string;
  note: string;
  madeAt: string;
  madeBy: string;
  personId: string | null;
  report: Report;
  decidedAt: string | null;
  decidedBy: string | null;
  files: { name: string; mediaType: string; bytes: number }[];
}

/**
 * Keeps a draft. Earlier open ones are dropped: there is one at a time.
 *
 * @returns its id
 * @throws UserError where what it was made of is not what is stored any more
 */
export async function saveDraft<Report>(db: StaffDatabase, draft: NewDraft<Report>): Promise<number> {
  const { number, audit, basis, files, made, report, by, personId } = draft;
  const { head, cube, findings } = draft.draft;
  const body = await packBody({ head, findings, audit, cube, basis });
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    if ((await nextNumber(sql)) !== number || (await releaseState(db)) !== made) throw changedMeanwhile();
    await dropOpen(sql, by);
    const [row] = await sql<{ id: number }[]>`
      insert into surveillance.release_draft (number, date, note, made_of, made_by, person_id, report, body)
      values (${number}, ${head.date}, ${head.note}, ${made}, ${by}, ${personId}, ${jsonText(report)}::text::jsonb, ${body})
      returning id::float8 as id`;
    for (const { name, mediaType, bytes, brotli, gzip: gzipped } of files) {
      const sha256 = createHash('sha256').update(bytes).digest('hex');
      await sql`
        insert into surveillance.release_draft_file (draft, name, media_type, sha256, bytes, brotli, gzip)
        values (${row!.id}, ${name}, ${mediaType}, ${sha256}, ${Buffer.from(bytes)}, ${brotli}, ${gzipped})`;
    }
    return row!.id;
  });
}

/** Drafts, the newest first. */
export async function listDrafts<Report>(db: StaffDatabase, limit = 20): Promise<StoredDraft<Report>[]> {
  return db.$client<StoredDraft<Report>[]>`
    select ${columns(db)} from surveillance.release_draft d order by id desc limit ${limit}`;
}

/** A draft, or null. */
export async function readDraft<Report>(db: StaffDatabase, id: number): Promise<StoredDraft<Report> | null> {
  const [row] = await db.$client<StoredDraft<Report>[]>`
    select ${columns(db)} from surveillance.release_draft d where id = ${id}`;
  return row ?? null;
}

/**
 * The cells and findings of an open draft, as the public would see them, and what it is made of; null where it is
 * decided.
 */
export async function readDraftBody(
  db: StaffDatabase,
  id: number,
): Promise<{ draft: ReleaseDraft; basis: ReleaseBasis } | null> {
  const [row] = await db.$client<{ body: Buffer | null }[]>`
    select body from surveillance.release_draft where id = ${id}`;
  return row?.body ? unpackBody(row.body) : null;
}

/** A file of an open draft, or null. */
export async function readDraftFile(
  db: StaffDatabase,
  { id, name }: { id: number; name: string },
): Promise<{ mediaType: string; bytes: Buffer } | null> {
  const [row] = await db.$client<{ mediaType: string; bytes: Buffer }[]>`
    select media_type as "mediaType", bytes from surveillance.release_draft_file where draft = ${id} and name = ${name}`;
  return row ?? null;
}

export interface Decision {
  id: number;
  by: string;
  personId: string | null;
}

/**
 * Publishes a draft, in one transaction: exactly what was looked at becomes the release.
 *
 * @returns its number
 * @throws UserError where somebody decided already (who, and how), where two persons are asked for and this one drafted
 *   it, and where what it was made of has changed since
 */
export async function publishDraft(db: StaffDatabase, { id, by, personId }: Decision): Promise<number> {
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const number = await nextNumber(sql);
    const [row] = await sql<(Decided & { made: string; body: Buffer | null })[]>`
      select state, number, made_by as "madeBy", person_id as "personId", decided_by as "decidedBy", made_of as made, body
      from surveillance.release_draft where id = ${id} for update`;
    refuseDecided(row, id);
    await refuseOnePerson(db, row!, personId);
    if (row!.number !== number || (await releaseState(db)) !== row!.made) throw changedMeanwhile();
    await storeRelease(sql, number, await unpackBody(row!.body!));
    await sql`
      insert into release.file (release, name, media_type, sha256, bytes, brotli, gzip)
      select ${number}, name, media_type, sha256, bytes, brotli, gzip
      from surveillance.release_draft_file where draft = ${id}`;
    await decide(sql, { id, by, state: 'published' });
    await addHistory(sql, {
      by,
      what: 'release published',
      after: { release: number, draft: id, madeBy: row!.madeBy },
    });
    return number;
  });
}

/** Drops a draft. @throws UserError where somebody decided already */
export async function dropDraft(db: StaffDatabase, { id, by }: Omit<Decision, 'personId'>): Promise<void> {
  await db.$client.begin(async (sql) => {
    const [row] = await sql<Decided[]>`
      select state, number, made_by as "madeBy", person_id as "personId", decided_by as "decidedBy"
      from surveillance.release_draft where id = ${id} for update`;
    refuseDecided(row, id);
    await decide(sql, { id, by, state: 'dropped' });
  });
}

/** Whether whoever drafted a release may publish it not: two persons are asked for. */
export async function asksTwoPersons(db: StaffDatabase): Promise<boolean> {
  const [row] = await db.$client<{ two: boolean }[]>`
    select two_publishers as two from surveillance.programme`;
  return row?.two ?? false;
}

type Sql = Parameters<Parameters<StaffDatabase['$client']['begin']>[1]>[0];

interface Decided {
  state: DraftState;
  number: number;
  madeBy: string;
  personId: string | null;
  decidedBy: string | null;
}

function refuseDecided(row: Decided | undefined, id: number): void {
  if (!row) throw new UserError(`There is no draft ${id}.`, 'The page of releases lists the drafts.');
  if (row.state === 'published') {
    throw new UserError(
      `${row.decidedBy} has published this draft already, as release ${row.number}.`,
      'Nothing is left to do.',
    );
  }
  if (row.state === 'dropped') {
    throw new UserError(`${row.decidedBy} has dropped this draft.`, 'Draft the release anew.');
  }
}

async function refuseOnePerson(
  db: StaffDatabase,
  { personId: drafted }: Decided,
  who: string | null,
): Promise<void> {
  if (drafted === null || drafted !== who || !(await asksTwoPersons(db))) return;
  throw new UserError(
    'You drafted this release, and your programme asks that another person publishes it.',
    'Ask another publisher to look at it.',
  );
}

function changedMeanwhile(): UserError {
  return new UserError(
    'What is stored has changed since this draft was begun: results, consents, first finds, closed seasons or releases.',
    'Nothing was published. Draft the release anew, and look at it again.',
  );
}

async function dropOpen(sql: Sql, by: string): Promise<void> {
  const open = await sql<{ id: number }[]>`
    select id::float8 as id from surveillance.release_draft where state = 'open' for update`;
  for (const { id } of open) await decide(sql, { id, by, state: 'dropped' });
}

async function decide(
  sql: Sql,
  { id, by, state }: { id: number; by: string; state: Exclude<DraftState, 'open'> },
): Promise<void> {
  await sql`
    update surveillance.release_draft set state = ${state}, decided_at = now(), decided_by = ${by}, body = null
    where id = ${id}`;
  await sql`delete from surveillance.release_draft_file where draft = ${id}`;
}

function columns(db: StaffDatabase) {
  return db.$client`
    id::float8 as id, state, number, to_char(date, 'YYYY-MM-DD') as date, note,
    to_char(made_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "madeAt", made_by as "madeBy",
    person_id as "personId", report,
    to_char(decided_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"') as "decidedAt", decided_by as "decidedBy",
    (select coalesce(json_agg(json_build_object('name', f.name, 'mediaType', f.media_type, 'bytes', length(f.bytes))
      order by f.name), '[]') from surveillance.release_draft_file f where f.draft = d.id) as files`;
}

interface Body {
  head: ReleaseDraft['head'];
  findings: Finding[];
  audit: AuditReport;
  cube: ReleaseDraft['cube'];
  basis: ReleaseBasis;
}

/** Rows of a body that stand in one line of it: a text of all of them could be longer than a text may be. */
const LINE = 20_000;

async function packBody({ head, findings, audit, cube, basis }: Body): Promise<Buffer> {
  const { cells, ...frame } = cube;
  const { facts, ...places } = basis;
  const lines = [
    JSON.stringify({ head, findings, audit, frame, places }),
    ...inLines('cells', cells),
    ...inLines('facts', facts),
  ];
  return promisify(gzip)(Buffer.concat(lines.map((line) => Buffer.from(`${line}\n`))), { level: 6 });
}

function* inLines(name: 'cells' | 'facts', rows: readonly unknown[]): Generator<string> {
  for (let i = 0; i < rows.length; i += LINE) yield JSON.stringify({ [name]: rows.slice(i, i + LINE) });
}

interface First extends Omit<Body, 'cube' | 'basis'> {
  frame: Omit<ReleaseDraft['cube'], 'cells'>;
  places: { places: PlaceTree; waiting: Waiting[] };
}

async function unpackBody(
  body: Buffer,
): Promise<{ draft: ReleaseDraft; audit: AuditReport; basis: ReleaseBasis }> {
  const bytes = await promisify(gunzip)(body);
  let first: First | null = null;
  const cells: ReleasedCell[] = [];
  const facts: Fact[] = [];
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf(10, at);
    const line = JSON.parse(bytes.toString('utf8', at, end)) as First & {
      cells?: ReleasedCell[];
      facts?: Fact[];
    };
    if (first === null) first = line;
    for (const cell of line.cells ?? []) cells.push(cell);
    for (const fact of line.facts ?? []) facts.push(fact);
    at = end + 1;
  }
  const { head, findings, audit, frame, places } = first!;
  const cube = releasedCubeFromStore({ ...frame, cells });
  return { draft: { head, cube, findings }, audit, basis: { facts, ...places } };
}
