import { sql } from 'drizzle-orm';
import {
  boolean,
  check,
  customType,
  date,
  foreignKey,
  integer,
  jsonb,
  pgSchema,
  primaryKey,
  text,
  timestamp,
  unique,
} from 'drizzle-orm/pg-core';
import type { CellPart } from '@/lib/cube/types';
import type { MultipleCell, ReleasedCell } from '@/lib/disclosure/types';
import type { Finding } from '@/lib/findings/types';
import type { PlaceKind } from '@/lib/geography/types';
import type { ReleaseDraft } from '@/lib/release/types';
import type { Assay, Design, PlaceStatus } from '@/lib/vocabulary/terms';

/**
 * What anybody may see: numbered releases that never change. Triggers (migration `rights`) refuse every later change
 * but a withdrawal, for every role. An erratum is a row of its own beside the release.
 */
export const release = pgSchema('release');

const bytea = customType<{ data: Buffer; driverData: Buffer }>({ dataType: () => 'bytea' });

/** A release's head; withdrawn releases stay as tombstones. */
export const releaseHead = release.table(
  'release',
  {
    number: integer().primaryKey(),
    date: date({ mode: 'string' }).notNull(),
    head: jsonb().notNull().$type<ReleaseDraft['head']>(),
    createdAt: timestamp('created_at', { withTimezone: true }).notNull().defaultNow(),
    withdrawnAt: timestamp('withdrawn_at', { withTimezone: true }),
    withdrawalNote: text('withdrawal_note'),
  },
  (t) => [
    check('release_number', sql`${t.number} > 0`),
    check('release_withdrawal', sql`(${t.withdrawnAt} is null) = (${t.withdrawalNote} is null)`),
  ],
);

/** One cell, published or withheld; a withheld cell holds no number at all. */
export const cell = release.table(
  'cell',
  {
    release: integer().notNull(),
    species: text().notNull(),
    group: integer('group_number').notNull(),
    assay: text().notNull().$type<Assay>(),
    /** Null = all designs together. */
    design: text().$type<Design>(),
    placeKind: text('place_kind').notNull().$type<PlaceKind>(),
    place: text().notNull(),
    periodFirst: integer('period_first').notNull(),
    periodLast: integer('period_last').notNull(),
    status: text().notNull().$type<ReleasedCell['status']>(),
    tested: integer(),
    resistant: integer(),
    someSurvivors: integer('some_survivors'),
    received: integer(),
    testable: integer(),
    inconclusive: integer(),
    actives: text().array().notNull(),
    unfinished: boolean().notNull(),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    unique('cell_once')
      .on(t.release, t.species, t.group, t.assay, t.placeKind, t.place, t.periodFirst, t.periodLast, t.design)
      .nullsNotDistinct(),
    check('cell_place_kind', sql`${t.placeKind} in ('region', 'state', 'district', 'area', 'county')`),
    check('cell_period', sql`${t.periodFirst} <= ${t.periodLast}`),
    check('cell_status', sql`${t.status} in ('published', 'withheld')`),
    check(
      'cell_withheld_shows_nothing',
      sql`${t.status} <> 'withheld' or (num_nonnulls(${t.tested}, ${t.resistant}, ${t.someSurvivors}, ${t.received}, ${t.testable}, ${t.inconclusive}) = 0 and cardinality(${t.actives}) = 0)`,
    ),
    check(
      'cell_published_counts',
      sql`${t.status} <> 'published' or (num_nulls(${t.tested}, ${t.resistant}, ${t.someSurvivors}) = 0 and ${t.resistant} >= 0 and ${t.someSurvivors} >= 0 and ${t.resistant} + ${t.someSurvivors} <= ${t.tested})`,
    ),
    check(
      'cell_receipt',
      sql`num_nonnulls(${t.received}, ${t.testable}, ${t.inconclusive}) = 0 or (num_nulls(${t.received}, ${t.testable}, ${t.inconclusive}) = 0 and ${t.placeKind} in ('region', 'state') and ${t.received} >= ${t.testable} and ${t.testable} >= ${t.tested} and ${t.inconclusive} >= 0)`,
    ),
  ],
);

/** Cells by crop (state × season) and by active (district × window), published or withheld like the others. */
export const partCell = release.table(
  'part_cell',
  {
    release: integer().notNull(),
    species: text().notNull(),
    group: integer('group_number').notNull(),
    of: text().notNull().$type<CellPart['of']>(),
    /** The crop or active. */
    part: text().notNull(),
    placeKind: text('place_kind').notNull().$type<PlaceKind>(),
    place: text().notNull(),
    periodFirst: integer('period_first').notNull(),
    periodLast: integer('period_last').notNull(),
    status: text().notNull().$type<ReleasedCell['status']>(),
    tested: integer(),
    resistant: integer(),
    someSurvivors: integer('some_survivors'),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    primaryKey({
      name: 'part_cell_pk',
      columns: [
        t.release,
        t.species,
        t.group,
        t.of,
        t.part,
        t.placeKind,
        t.place,
        t.periodFirst,
        t.periodLast,
      ],
    }),
    check(
      'part_cell_place',
      sql`(${t.of} = 'crop' and ${t.placeKind} = 'state' and ${t.periodFirst} = ${t.periodLast}) or (${t.of} = 'active' and ${t.placeKind} = 'district' and ${t.periodFirst} <= ${t.periodLast})`,
    ),
    check(
      'part_cell_counts',
      sql`case ${t.status} when 'withheld' then num_nonnulls(${t.tested}, ${t.resistant}, ${t.someSurvivors}) = 0 when 'published' then num_nulls(${t.tested}, ${t.resistant}, ${t.someSurvivors}) = 0 and ${t.resistant} >= 0 and ${t.someSurvivors} >= 0 and ${t.resistant} + ${t.someSurvivors} <= ${t.tested} else false end`,
    ),
  ],
);

/** Populations screened against two groups or more, by the number of groups they are resistant to: region and state × window. */
export const multipleCell = release.table(
  'multiple_cell',
  {
    release: integer().notNull(),
    species: text().notNull(),
    placeKind: text('place_kind').notNull().$type<MultipleCell['placeKind']>(),
    place: text().notNull(),
    periodFirst: integer('period_first').notNull(),
    periodLast: integer('period_last').notNull(),
    status: text().notNull().$type<ReleasedCell['status']>(),
    /** All of them; of these resistant to one group, and to two or more. */
    tested: integer(),
    one: integer('resistant_to_one'),
    several: integer('resistant_to_several'),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    primaryKey({
      name: 'multiple_cell_pk',
      columns: [t.release, t.species, t.placeKind, t.place, t.periodFirst, t.periodLast],
    }),
    check(
      'multiple_cell_place',
      sql`${t.placeKind} in ('region', 'state') and ${t.periodFirst} <= ${t.periodLast}`,
    ),
    check(
      'multiple_cell_counts',
      sql`case ${t.status} when 'withheld' then num_nonnulls(${t.tested}, ${t.one}, ${t.several}) = 0 when 'published' then num_nulls(${t.tested}, ${t.one}, ${t.several}) = 0 and ${t.one} >= 0 and ${t.several} >= 0 and ${t.one} + ${t.several} <= ${t.tested} else false end`,
    ),
  ],
);

/** What may be said of a place over all closed windows. */
export const status = release.table(
  'status',
  {
    release: integer().notNull(),
    species: text().notNull(),
    group: integer('group_number').notNull(),
    placeKind: text('place_kind').notNull().$type<PlaceKind>(),
    place: text().notNull(),
    status: text().notNull().$type<PlaceStatus>(),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    primaryKey({ columns: [t.release, t.species, t.group, t.placeKind, t.place] }),
    check(
      'status_look',
      sql`${t.status} in ('confirmed', 'none confirmed', 'no public information', 'not screened')`,
    ),
  ],
);

/** A finding that was computed from released cells, in the order in which the release gives them. */
export const finding = release.table(
  'finding',
  {
    release: integer().notNull(),
    species: text().notNull(),
    group: integer('group_number').notNull(),
    position: integer().notNull(),
    kind: text().notNull().$type<Finding['kind']>(),
    body: jsonb().notNull().$type<Finding>(),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    primaryKey({ columns: [t.release, t.species, t.group, t.position] }),
  ],
);

/** A file of a release, with the same bytes under brotli and gzip, where that makes them fewer, to be sent as they are. */
export const file = release.table(
  'file',
  {
    release: integer().notNull(),
    name: text().notNull(),
    mediaType: text('media_type').notNull(),
    sha256: text().notNull(),
    bytes: bytea().notNull(),
    brotli: bytea(),
    gzip: bytea(),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    primaryKey({ columns: [t.release, t.name] }),
    check('file_sha256', sql`${t.sha256} = encode(sha256(${t.bytes}), 'hex')`),
  ],
);

/**
 * A note that was added to a published release: what is wrong with it, and what to do. The release stays as it was; a
 * note never changes either. Who wrote it stands in the staff's history.
 */
export const erratum = release.table(
  'erratum',
  {
    release: integer().notNull(),
    /** 1, 2, 3 … within the release. */
    number: integer().notNull(),
    date: date({ mode: 'string' }).notNull(),
    text: text().notNull(),
    /** Name, sum and bytes of the note as a file. */
    file: text().notNull(),
    sha256: text().notNull(),
    bytes: bytea().notNull(),
  },
  (t) => [
    foreignKey({ columns: [t.release], foreignColumns: [releaseHead.number] }),
    primaryKey({ columns: [t.release, t.number] }),
    check('erratum_number', sql`${t.number} > 0`),
    check('erratum_text', sql`${t.text} <> ''`),
    check('erratum_sha256', sql`${t.sha256} = encode(sha256(${t.bytes}), 'hex')`),
  ],
);
