import { sql } from 'drizzle-orm';
import {
  boolean,
  check,
  date,
  doublePrecision,
  integer,
  jsonb,
  pgSchema,
  primaryKey,
  text,
  timestamp,
  unique,
  uniqueIndex,
} from 'drizzle-orm/pg-core';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { Assay, Design, Outcome, Result } from '@/lib/vocabulary/terms';

/** What laboratories sent, and what intake made of each row. Private: nothing here is ever shown to the public. */
export const intake = pgSchema('intake');

/** How a record counts: screened, arrived but could not be screened, or screened in a run that is void. */
export type TestKind = NonNullable<Judged['kind']>;

/** One file that was imported. */
export const sheet = intake.table(
  'sheet',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    fileName: text('file_name').notNull(),
    sha256: text().notNull(),
    laboratory: text().notNull(),
    importedAt: timestamp('imported_at', { withTimezone: true }).notNull().defaultNow(),
    /** The day that counted as today when the sheet was judged. */
    asOf: date('as_of', { mode: 'string' }).notNull(),
    caseDefinition: text('case_definition').notNull(),
    accepted: integer().notNull().default(0),
    inQuestion: integer('in_question').notNull().default(0),
    refused: integer().notNull().default(0),
  },
  (t) => [
    unique('sheet_sha256_key').on(t.sha256),
    check('sheet_sha256', sql`${t.sha256} ~ '^[0-9a-f]{64}$'`),
  ],
);

/** One row of a sheet: as it was sent (`raw`, with what it says of places and people), and as it was read. */
export const record = intake.table(
  'record',
  {
    sheetId: integer('sheet_id')
      .notNull()
      .references(() => sheet.id),
    record: integer().notNull(),
    line: integer().notNull(),
    raw: jsonb().notNull().$type<Record<string, string>>(),
    outcome: text().notNull().$type<Outcome>(),
    reasons: jsonb().notNull().$type<Reason[]>(),
    flags: text().array().notNull(),
    kind: text().$type<TestKind>(),
    sample: text(),
    season: integer(),
    species: text(),
    county: text(),
    locatedBy: text('located_by'),
    group: integer('group_number'),
    actives: text().array().notNull(),
    assay: text().$type<Assay>(),
    rateMultiple: doublePrecision('rate_multiple'),
    treated: integer(),
    alive: integer(),
    result: text().$type<Result>(),
    design: text().$type<Design>(),
    crop: text(),
    funder: text(),
    sender: text(),
    operation: text(),
    publicShare: boolean('public_share').notNull(),
    collected: text(),
    datePrecision: text('date_precision'),
    received: text(),
    /** What the record is about, and all that it says: two accepted records never share a key. */
    contentKey: text('content_key'),
    contentHash: text('content_hash'),
  },
  (t) => [
    primaryKey({ columns: [t.sheetId, t.record] }),
    uniqueIndex('record_accepted_once').on(t.contentKey).where(sql`${t.outcome} = 'accepted'`),
    check('record_outcome', sql`${t.outcome} in ('accepted', 'in question', 'refused')`),
    check('record_kind', sql`${t.kind} in ('tested', 'not testable', 'void run')`),
    check(
      'record_accepted_is_complete',
      sql`${t.outcome} <> 'accepted' or (${t.kind} is not distinct from 'tested' and ${t.group} is not null and ${t.result} is not null and ${t.contentKey} is not null and ${t.contentHash} is not null)`,
    ),
    check('record_in_question_waits', sql`${t.outcome} <> 'in question' or ${t.kind} is null`),
    check(
      'record_counted_is_placed',
      sql`${t.kind} is null or (${t.sample} is not null and ${t.season} is not null and ${t.species} is not null and ${t.county} is not null and ${t.design} is not null and ${t.assay} is not null)`,
    ),
  ],
);
