import { createHash } from 'node:crypto';
import { and, asc, eq, max } from 'drizzle-orm';
import type { TransactionSql } from 'postgres';
import { type FurtherTable, multipleCells } from '@/lib/disclosure/further';
import type { AuditReport, MultipleCell, ReleasedCell, ReleasedStatus } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { AreaTable } from '@/lib/geography/types';
import type { ReleaseDraft } from '@/lib/release/types';
import type { Eppo, Season } from '@/lib/vocabulary/terms';
import { insertRows, jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { type Encoding, encode } from '../encoding';
import { UserError } from '../errors';
import { cell, releaseHead, status } from '../schema/release';
import { addHistory } from './history';
import { type ReleaseBasis, saveBasis } from './release-basis';
import { furtherCellsOf, toCell } from './released-cell';

/** A file of a release as it is written. */
export interface DraftFile {
  name: string;
  mediaType: string;
  bytes: Uint8Array;
}

/** A release that is about to be stored. The files are made when its number is known. */
export interface ReleaseInput {
  draft: ReleaseDraft;
  audit: AuditReport;
  files: (number: number) => DraftFile[] | Promise<DraftFile[]>;
  /** What it is made of: later releases are audited together with it. */
  basis?: ReleaseBasis;
  /** Number of the newest release that it was audited with, 0 for none; not looked at where it is left out. */
  after?: number;
}

/**
 * Stores a release under the next number (1, 2, 3 …, never reused) in one transaction, and returns the number.
 * A release whose audit is not clean is refused with an error, and nothing is stored.
 *
 * @throws UserError where another release was stored since: this one was not audited with it
 */
export async function saveRelease(
  db: StaffDatabase,
  { draft, audit, files, basis, after }: ReleaseInput,
): Promise<number> {
  if (!audit.clean) {
    throw new Error(
      `the audit found ${audit.breaches.length} cells too well known: the release was not stored`,
    );
  }
  return db.$client.begin(async (sql) => {
    const number = await nextNumber(sql);
    if (after !== undefined && number !== after + 1) {
      throw new UserError(
        `Release ${number - 1} was published while this one was built, so the two were not audited together. Nothing was released.`,
        'Release again: it is then built beside that one.',
      );
    }
    const stored = await packFiles(await files(number));
    await storeRelease(sql, number, { draft, audit, basis });
    for (const file of stored) await insertFile(sql, number, file);
    return number;
  });
}

/** Everything of a release but its files, in the transaction that stores it; its audit is clean. */
export async function storeRelease(
  sql: TransactionSql,
  number: number,
  { draft, audit, basis }: Omit<ReleaseInput, 'files'>,
): Promise<void> {
  await sql`
    insert into release.release (number, date, head)
    values (${number}, ${draft.head.date}, ${jsonText(draft.head)}::text::jsonb)`;
  const { cells, further, statuses } = draft.cube;
  await insertRows(
    sql,
    'release.cell',
    CELL,
    cells.map((cell) => cellRow(number, cell)),
  );
  await insertRows(
    sql,
    'release.part_cell',
    PART_CELL,
    further.flatMap((cell) => partCellRow(number, cell) ?? []),
  );
  await insertRows(
    sql,
    'release.multiple_cell',
    MULTIPLE_CELL,
    multipleCells(draft.cube).map((cell) => multipleCellRow(number, cell)),
  );
  await insertRows(
    sql,
    'release.status',
    STATUS,
    statuses.map((status) => statusRow(number, status)),
  );
  await insertRows(
    sql,
    'release.finding',
    FINDING,
    draft.findings.map((f, i) => findingRow(number, f, i)),
  );
  await sql`
    insert into surveillance.release_audit (release, report) values (${number}, ${jsonText(audit)}::text::jsonb)`;
  await sql`
    insert into surveillance.release_sheet (release, sheet_id)
    select ${number}, id from intake.sheet where undone_at is null`;
  if (basis) await saveBasis(sql, number, basis);
}

/** The number of the newest release, withdrawn or not; 0 where there is none. */
export async function lastReleaseNumber(db: StaffDatabase): Promise<number> {
  const [row] = await db.select({ number: max(releaseHead.number) }).from(releaseHead);
  return row?.number ?? 0;
}

/** A release that was ever published, with all its cells. */
export interface EarlierRelease {
  number: number;
  head: ReleaseDraft['head'];
  isWithdrawn: boolean;
  firstSeason: Season;
  areas: AreaTable[];
  cells: ReleasedCell[];
  /** Those of the further tables, and which of them it has. */
  further: ReleasedCell[];
  furtherTables: FurtherTable[];
  statuses: ReleasedStatus[];
}

/**
 * Every release so far, oldest first. Withdrawn ones are among them: a withdrawal calls back nothing of
 * what was read and kept, so a new release must bear comparison with them too.
 *
 * @param species with the cells and statuses of this weed alone
 */
export async function earlierReleases(
  db: StaffDatabase,
  species: Eppo | null = null,
): Promise<EarlierRelease[]> {
  const heads = await db.select().from(releaseHead).orderBy(asc(releaseHead.number));
  return Promise.all(
    heads.map(async ({ number, head, withdrawnAt }) => {
      const own = (table: typeof cell | typeof status) =>
        and(eq(table.release, number), species === null ? undefined : eq(table.species, species));
      const rows = await db.select().from(cell).where(own(cell));
      const { firstSeason, areas = [] } = head;
      const isWithdrawn = withdrawnAt !== null;
      const statuses = await db
        .select({
          ...{ placeKind: status.placeKind, place: status.place, species: status.species },
          ...{ group: status.group, status: status.status },
        })
        .from(status)
        .where(own(status));
      const further = await furtherCellsOf(db, number, species);
      const { furtherTables = [] } = head;
      const cells = rows.map(toCell);
      return { number, head, isWithdrawn, firstSeason, areas, cells, further, furtherTables, statuses };
    }),
  );
}

/**
 * Withdraws a release: it stays as a tombstone with the note, and is no longer read. `at` is the ISO instant; by whom
 * stays with the staff.
 * Errors: `UserError` when there is no such release, or it was withdrawn before.
 */
export async function withdrawRelease(
  db: StaffDatabase,
  { number, note, at, by }: { number: number; note: string; at: string; by?: string },
): Promise<void> {
  await db.$client.begin(async (sql) => {
    const changed = await sql`
      update release.release set withdrawn_at = ${at}::timestamptz, withdrawal_note = ${note}
      where number = ${number} and withdrawn_at is null`;
    if (changed.count === 0) {
      throw new UserError(
        `There is no release ${number} that could be withdrawn.`,
        'List the releases and choose one.',
      );
    }
    if (by) await addHistory(sql, { by, why: note, what: 'release withdrawn', after: { release: number } });
  });
}

/** The number of the next release, under the lock that makes releases come one after the other. */
export async function nextNumber(sql: TransactionSql): Promise<number> {
  await sql`select pg_advisory_xact_lock(hashtext('fencerow.release'))`;
  const [row] = await sql<
    { next: number }[]
  >`select coalesce(max(number), 0) + 1 as next from release.release`;
  return row!.next;
}

const CELL = [
  ...['release', 'species', 'group_number', 'assay', 'design', 'place_kind', 'place', 'period_first'],
  ...[
    'period_last',
    'status',
    'tested',
    'resistant',
    'some_survivors',
    'received',
    'testable',
    'inconclusive',
  ],
  ...['actives', 'unfinished'],
];

function cellRow(release: number, c: ReleasedCell): object {
  const { species, assay, design, place, status, actives, unfinished } = c;
  return {
    ...{ release, species, group_number: c.group, assay, design, place_kind: c.placeKind, place, status },
    ...{ period_first: c.period.first, period_last: c.period.last, actives, unfinished },
    ...{ tested: c.counts?.tested, resistant: c.counts?.resistant, some_survivors: c.counts?.someSurvivors },
    ...c.receipt,
  };
}

const KEY = ['release', 'species', 'place_kind', 'place', 'period_first', 'period_last', 'status'];
const PART_CELL = [...KEY, 'group_number', 'of', 'part', 'tested', 'resistant', 'some_survivors'];

function partCellRow(release: number, c: ReleasedCell): object | null {
  if (!c.part) return null;
  const { tested, resistant, someSurvivors } = c.counts ?? {};
  const counts = { tested, resistant, some_survivors: someSurvivors };
  return { ...keyRow(release, c), group_number: c.group, of: c.part.of, part: c.part.name, ...counts };
}

const MULTIPLE_CELL = [...KEY, 'tested', 'resistant_to_one', 'resistant_to_several'];

function multipleCellRow(release: number, c: MultipleCell): object {
  const { tested, one, several } = c.counts ?? {};
  return { ...keyRow(release, c), tested, resistant_to_one: one, resistant_to_several: several };
}

function keyRow(
  release: number,
  {
    species,
    placeKind,
    place,
    period,
    status,
  }: Pick<ReleasedCell, 'species' | 'placeKind' | 'place' | 'period' | 'status'>,
): object {
  const { first, last } = period;
  return { release, species, place_kind: placeKind, place, period_first: first, period_last: last, status };
}

const STATUS = ['release', 'species', 'group_number', 'place_kind', 'place', 'status'];

function statusRow(release: number, { species, group, placeKind, place, status }: ReleasedStatus): object {
  return { release, species, group_number: group, place_kind: placeKind, place, status };
}

const FINDING = ['release', 'species', 'group_number', 'position', 'kind', 'body'];

function findingRow(release: number, body: Finding, position: number): object {
  return { release, species: body.species, group_number: body.group, position, kind: body.kind, body };
}

/** A file with its shorter forms, where they are shorter. */
export interface PackedFile extends DraftFile {
  brotli: Buffer | null;
  gzip: Buffer | null;
}

/** What is packed by itself gets hardly smaller, and at best effort takes more time than all the rest. */
const PACKED = /zip|spreadsheetml|parquet/;
const EFFORT = { packed: 5, best: 11 };

/** Packs files as they are sent. */
export async function packFiles(files: readonly DraftFile[]): Promise<PackedFile[]> {
  return Promise.all(files.map(packed));
}

async function packed(file: DraftFile): Promise<PackedFile> {
  const { mediaType, bytes } = file;
  const smaller = async (encoding: Encoding) => {
    const effort = PACKED.test(mediaType) ? EFFORT.packed : EFFORT.best;
    const encoded = await encode(bytes, encoding, effort);
    return encoded.length < bytes.length ? encoded : null;
  };
  const [brotli, gzip] = await Promise.all([smaller('br'), smaller('gzip')]);
  return { ...file, brotli, gzip };
}

async function insertFile(
  sql: TransactionSql,
  number: number,
  { name, mediaType, bytes, brotli, gzip }: PackedFile,
): Promise<void> {
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  await sql`
    insert into release.file (release, name, media_type, sha256, bytes, brotli, gzip)
    values (${number}, ${name}, ${mediaType}, ${sha256}, ${Buffer.from(bytes)}, ${brotli}, ${gzip})`;
}
