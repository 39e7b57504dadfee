import { and, asc, desc, eq, isNull, type SQL, sql } from 'drizzle-orm';
import type { PgColumn } from 'drizzle-orm/pg-core';
import type { ReleasedCell, ReleasedStatus } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { Pair, ReleaseHead } from '@/lib/release/types';
import type { PublicDatabase } from '../clients/public';
import type { Encoding } from '../encoding';
import { cell, file, finding, releaseHead, status } from '../schema/release';
import { toCell } from './released-cell';

export { ENCODINGS, type Encoding } from '../encoding';

/** A line of the list of releases; a withdrawn one is a tombstone with its note. */
export interface ListedRelease {
  number: number;
  /** ISO day. */
  date: string;
  note: string;
  /** ISO instant and note of the withdrawal, or null. */
  withdrawn: { at: string; note: string } | null;
}

/** A file as it is sent: the bytes, and the same under each encoding that makes them fewer. */
export interface PublishedFile {
  name: string;
  mediaType: string;
  sha256: string;
  bytes: Buffer;
  encoded: Partial<Record<Encoding, Buffer>>;
}

/** The newest release that stands, or null. */
export async function latestRelease(db: PublicDatabase): Promise<ReleaseHead | null> {
  return readHead(db, standing);
}

/** The release with this number, or null where it does not exist or was withdrawn. */
export async function releaseByNumber(db: PublicDatabase, number: number): Promise<ReleaseHead | null> {
  return readHead(db, and(eq(releaseHead.number, number), standing)!);
}

/** All releases, newest first, the withdrawn ones as tombstones. */
export async function listReleases(db: PublicDatabase): Promise<ListedRelease[]> {
  const rows = await db.select().from(releaseHead).orderBy(desc(releaseHead.number));
  return rows.map(({ number, date, head, withdrawnAt, withdrawalNote }) => ({
    number,
    date,
    note: head.note,
    withdrawn: withdrawnAt === null ? null : { at: withdrawnAt.toISOString(), note: withdrawalNote ?? '' },
  }));
}

/** The released cells of a species × group, published and withheld, in a fixed order; none of a withdrawn release. */
export async function releasedCells(db: PublicDatabase, number: number, pair: Pair): Promise<ReleasedCell[]> {
  const rows = await db
    .select()
    .from(cell)
    .where(ofPair(cell, number, pair))
    .orderBy(
      ...[asc(cell.assay), sql`${cell.design} nulls first`, asc(cell.placeKind), asc(cell.place)],
      ...[asc(cell.periodFirst), asc(cell.periodLast)],
    );
  return rows.map(toCell);
}

/** What may be said of each place over all closed windows; empty for a withdrawn release. */
export async function releasedStatuses(
  db: PublicDatabase,
  number: number,
  pair: Pair,
): Promise<ReleasedStatus[]> {
  const rows = await db
    .select()
    .from(status)
    .where(ofPair(status, number, pair))
    .orderBy(asc(status.placeKind), asc(status.place));
  return rows.map(({ release: _, ...row }) => row);
}

/** The public findings of a species × group, in the release's order; empty for a withdrawn release. */
export async function findings(db: PublicDatabase, number: number, pair: Pair): Promise<Finding[]> {
  const rows = await db
    .select({ body: finding.body })
    .from(finding)
    .where(ofPair(finding, number, pair))
    .orderBy(asc(finding.position));
  return rows.map(({ body }) => body);
}

/** One file of a release, or null where there is none or the release was withdrawn. */
export async function releaseFile(
  db: PublicDatabase,
  number: number,
  name: string,
): Promise<PublishedFile | null> {
  const [row] = await db
    .select()
    .from(file)
    .where(and(eq(file.release, number), eq(file.name, name), stands(file.release)));
  if (row === undefined) return null;
  const { mediaType, sha256, bytes, brotli, gzip } = row;
  return {
    name,
    mediaType,
    sha256,
    bytes,
    encoded: { ...(brotli && { br: brotli }), ...(gzip && { gzip }) },
  };
}

const standing = isNull(releaseHead.withdrawnAt);

async function readHead(db: PublicDatabase, which: SQL): Promise<ReleaseHead | null> {
  const [row] = await db.select().from(releaseHead).where(which).orderBy(desc(releaseHead.number)).limit(1);
  if (row === undefined) return null;
  const files = await db
    .select({
      name: file.name,
      mediaType: file.mediaType,
      bytes: sql<number>`octet_length(${file.bytes})`,
      sha256: file.sha256,
    })
    .from(file)
    .where(eq(file.release, row.number))
    .orderBy(asc(file.name));
  return { ...row.head, number: row.number, date: row.date, files };
}

function ofPair(
  table: { release: PgColumn; species: PgColumn; group: PgColumn },
  number: number,
  { species, group }: Pair,
): SQL {
  return and(
    eq(table.release, number),
    eq(table.species, species),
    eq(table.group, group),
    stands(table.release),
  )!;
}

function stands(release: PgColumn): SQL {
  return sql`exists (select from ${releaseHead} where ${releaseHead.number} = ${release} and ${standing})`;
}
