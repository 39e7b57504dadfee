import { and, asc, desc, eq, inArray, isNull, or, type SQL, sql } from 'drizzle-orm';
import type { PgColumn } from 'drizzle-orm/pg-core';
import type {
  ActiveCell,
  CropCell,
  MultipleCell,
  ReleasedCell,
  ReleasedStatus,
} from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import { sumFile } from '@/lib/release/files/erratum';
import type { ListedRelease } from '@/lib/release/release-list';
import type { Pair, ReleaseHead } from '@/lib/release/types';
import type { Eppo, Period, PlaceKind } from '@/lib/vocabulary/terms';
import type { ReleaseReader } from '../clients/public';
import { ENCODINGS, type Encoding } from '../encoding';
import { cell, erratum, file, finding, multipleCell, partCell, releaseHead, status } from '../schema/release';
import { known, toCell } from './released-cell';

export { NOT_NAMED } from '@/lib/cube/facts';
export type { ListedRelease } from '@/lib/release/release-list';
export type { Encoding } from '../encoding';

/** A file as it is sent. */
export interface PublishedFile {
  name: string;
  mediaType: string;
  /** Of the plain bytes, 64 hexadecimal digits. */
  sha256: string;
  /** Of `bytes`; null where they are the plain ones. */
  encoding: Encoding | null;
  bytes: Buffer;
}

/** The newest release that stands, or null. */
export async function latestRelease(db: ReleaseReader): Promise<ReleaseHead | null> {
  return readHead(db, standing);
}

/** The release with this number, or null where it does not exist or was withdrawn. */
export async function releaseByNumber(db: ReleaseReader, number: number): Promise<ReleaseHead | null> {
  return readHead(db, and(eq(releaseHead.number, number), standing)!);
}

/** All releases, newest first, the withdrawn ones as tombstones, each with its errata. */
export async function listReleases(db: ReleaseReader): Promise<ListedRelease[]> {
  const rows = await db.select().from(releaseHead).orderBy(desc(releaseHead.number));
  const notes = await db
    .select({ release: erratum.release, ...ERRATUM })
    .from(erratum)
    .orderBy(asc(erratum.release), asc(erratum.number));
  return rows.map(({ number, date, head, withdrawnAt, withdrawalNote }) => ({
    number,
    date,
    note: head.note,
    changes: withdrawnAt === null ? head.changes : null,
    withdrawn: withdrawnAt === null ? null : { at: withdrawnAt.toISOString(), note: withdrawalNote ?? '' },
    errata: notes.filter(({ release }) => release === number).map(toErratum),
  }));
}

/** Which releases stand, which are withdrawn and how many errata each has, as text: it differs where any of that does. */
export async function releasesState(db: ReleaseReader): Promise<string> {
  const rows = await db
    .select({
      number: releaseHead.number,
      withdrawnAt: releaseHead.withdrawnAt,
      errata: db.$count(erratum, eq(erratum.release, releaseHead.number)),
    })
    .from(releaseHead)
    .orderBy(asc(releaseHead.number));
  return JSON.stringify(rows);
}

/** What was found wrong with a release after it was published, oldest first; empty for a withdrawn release. */
export async function releaseErrata(db: ReleaseReader, number: number): Promise<ListedRelease['errata']> {
  const rows = await db
    .select(ERRATUM)
    .from(erratum)
    .where(and(eq(erratum.release, number), stands(erratum.release)))
    .orderBy(asc(erratum.number));
  return rows.map(toErratum);
}

/** An erratum as a file, or its sum where the name ends in `.sha256`; null as `releaseFile`. */
export async function erratumFile(
  db: ReleaseReader,
  number: number,
  name: string,
): Promise<PublishedFile | null> {
  const of = name.replace(/\.sha256$/, '');
  const [row] = await db
    .select({ bytes: erratum.bytes, sha256: erratum.sha256 })
    .from(erratum)
    .where(and(eq(erratum.release, number), eq(erratum.file, of), stands(erratum.release)));
  if (!row) return null;
  if (of === name) return { name, mediaType: 'text/markdown; charset=utf-8', ...row, encoding: null };
  const { bytes, sha256, mediaType } = sumFile({ name: of, sha256: row.sha256 });
  return { name, mediaType, bytes, sha256, encoding: null };
}

/** The released cells of a species × group, published and withheld, in a fixed order; none of a withdrawn release. */
export async function releasedCells(db: ReleaseReader, number: number, pair: Pair): Promise<ReleasedCell[]> {
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

/** Which cells of a release: of all weeds without `species`, of all periods without `period`. */
export interface CellChoice {
  placeKinds: readonly PlaceKind[];
  species?: Eppo;
  period?: Period;
}

/**
 * The released cells of all groups at once, whole-plant results of all designs together, which is what pages show; none
 * of a withdrawn release.
 */
export async function chosenCells(
  db: ReleaseReader,
  number: number,
  { placeKinds, species, period }: CellChoice,
): Promise<ReleasedCell[]> {
  const rows = await db
    .select()
    .from(cell)
    .where(
      and(
        eq(cell.release, number),
        inArray(cell.placeKind, [...placeKinds]),
        eq(cell.assay, 'whole plant'),
        isNull(cell.design),
        species === undefined ? undefined : eq(cell.species, species),
        period && and(eq(cell.periodFirst, period.first), eq(cell.periodLast, period.last)),
        stands(cell.release),
      ),
    )
    .orderBy(
      ...[asc(cell.species), asc(cell.group), asc(cell.placeKind), asc(cell.place)],
      ...[asc(cell.periodFirst), asc(cell.periodLast)],
    );
  return rows.map(toCell);
}

/**
 * Counts of a species × group by crop, in each state and closed season, published and withheld, by state, season and crop.
 * Empty for a withdrawn release, and for one from before this table was made (`ReleaseHead.furtherTables`).
 */
export async function releasedCropCells(db: ReleaseReader, number: number, pair: Pair): Promise<CropCell[]> {
  const rows = await partCells(db, number, pair, 'crop');
  return rows.map(({ place, periodFirst, part, species, group, status, counts }) => {
    return { state: place, season: periodFirst, species, group, crop: part, status, counts };
  });
}

/**
 * Counts of a species × group by active, in each district and window, published and withheld, by district, window and
 * active. A population tested on two actives counts in both. Empty as `releasedCropCells`.
 */
export async function releasedActiveCells(
  db: ReleaseReader,
  number: number,
  pair: Pair,
): Promise<ActiveCell[]> {
  const rows = await partCells(db, number, pair, 'active');
  return rows.map(({ place, periodFirst, periodLast, part, species, group, status, counts }) => {
    const period = { first: periodFirst, last: periodLast };
    return { district: place, period, species, group, active: part, status, counts };
  });
}

/**
 * Populations of a species that were screened against two groups or more, by the number of groups they are resistant to,
 * in the region (first) and in each state, by window. They count results in shown cells only. Empty as `releasedCropCells`.
 */
export async function releasedMultipleCells(
  db: ReleaseReader,
  number: number,
  species: Pair['species'],
): Promise<MultipleCell[]> {
  const rows = await db
    .select()
    .from(multipleCell)
    .where(
      and(eq(multipleCell.release, number), eq(multipleCell.species, species), stands(multipleCell.release)),
    )
    .orderBy(asc(multipleCell.placeKind), asc(multipleCell.place), asc(multipleCell.periodFirst));
  return rows.map(({ placeKind, place, periodFirst, periodLast, status, ...row }) => {
    const { tested, one, several } = row;
    const counts = known({ tested, one, several });
    return {
      ...{ placeKind, place, species, status, period: { first: periodFirst, last: periodLast } },
      counts: counts && { ...counts, none: counts.tested - counts.one - counts.several },
    };
  });
}

async function partCells(db: ReleaseReader, number: number, pair: Pair, of: 'crop' | 'active') {
  const rows = await db
    .select()
    .from(partCell)
    .where(and(ofPair(partCell, number, pair), eq(partCell.of, of)))
    .orderBy(asc(partCell.place), asc(partCell.periodFirst), asc(partCell.part));
  return rows.map(({ tested, resistant, someSurvivors, ...row }) => {
    return { ...row, counts: known({ tested, resistant, someSurvivors }) };
  });
}

/** What may be said of each place over all closed windows; empty for a withdrawn release. */
export async function releasedStatuses(
  db: ReleaseReader,
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

/** The public findings of all groups of a species, or of one kind for all, in the release's order; none as above. */
export async function chosenFindings(
  db: ReleaseReader,
  number: number,
  { species, kind }: { species?: Eppo; kind?: Finding['kind'] },
): Promise<Finding[]> {
  const rows = await db
    .select({ body: finding.body })
    .from(finding)
    .where(
      and(
        eq(finding.release, number),
        species === undefined ? undefined : eq(finding.species, species),
        kind === undefined ? undefined : eq(sql`${finding.body} ->> 'kind'`, kind),
        stands(finding.release),
      ),
    )
    .orderBy(asc(finding.species), asc(finding.group), asc(finding.position));
  return rows.map(({ body }) => body);
}

/** Every public finding of a release, in its order; empty for a withdrawn release. */
export async function allFindings(db: ReleaseReader, number: number): Promise<Finding[]> {
  const rows = await db
    .select({ body: finding.body })
    .from(finding)
    .where(and(eq(finding.release, number), stands(finding.release)))
    .orderBy(asc(finding.position));
  return rows.map(({ body }) => body);
}

/** First detections of these places and matched changes, of all pairs, in the release's order. */
export async function findingsAbout(
  db: ReleaseReader,
  number: number,
  places: readonly string[],
): Promise<Finding[]> {
  const place = sql<string>`${finding.body} ->> 'place'`;
  const rows = await db
    .select({ body: finding.body })
    .from(finding)
    .where(
      and(
        eq(finding.release, number),
        or(
          eq(finding.kind, 'matched change'),
          and(eq(finding.kind, 'first detection'), inArray(place, [...places])),
        ),
        stands(finding.release),
      ),
    )
    .orderBy(asc(finding.position));
  return rows.map(({ body }) => body);
}

/** The public findings of a species × group, in the release's order; empty for a withdrawn release. */
export async function findings(db: ReleaseReader, number: number, pair: Pair): Promise<Finding[]> {
  const rows = await db
    .select({ body: finding.body })
    .from(finding)
    .where(ofPair(finding, number, pair))
    .orderBy(asc(finding.position));
  return rows.map(({ body }) => body);
}

/**
 * One file of a release, or null where there is none or the release was withdrawn.
 *
 * @param choose picks one of the encodings that the file is held under, or null for its plain bytes, as without it
 */
export async function releaseFile(
  db: ReleaseReader,
  number: number,
  name: string,
  choose: (available: readonly Encoding[]) => Encoding | null = () => null,
): Promise<PublishedFile | null> {
  const which = and(eq(file.release, number), eq(file.name, name), stands(file.release));
  const isHeld = {
    br: sql<boolean>`${file.brotli} is not null`,
    gzip: sql<boolean>`${file.gzip} is not null`,
  };
  const [held] = await db.select(isHeld).from(file).where(which);
  if (held === undefined) return null;
  const encoding = choose(ENCODINGS.filter((one) => held[one]));
  const bytes = { br: file.brotli, gzip: file.gzip, plain: file.bytes }[encoding ?? 'plain'];
  const [row] = await db
    .select({ name: file.name, mediaType: file.mediaType, sha256: file.sha256, bytes })
    .from(file)
    .where(which);
  // It may have been withdrawn in between.
  return row ? { ...row, bytes: row.bytes!, encoding } : null;
}

const ERRATUM = {
  number: erratum.number,
  date: erratum.date,
  text: erratum.text,
  file: erratum.file,
  sha256: erratum.sha256,
};

function toErratum(row: Record<'date' | 'text' | 'file' | 'sha256', string> & { number: number }) {
  const { number, date, text, file, sha256 } = row;
  return { number, date, text, file: { name: file, sha256 } };
}

const standing = isNull(releaseHead.withdrawnAt);

async function readHead(db: ReleaseReader, which: SQL): Promise<ReleaseHead | null> {
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
