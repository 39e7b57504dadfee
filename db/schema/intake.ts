import { sql } from 'drizzle-orm';
import {
  bigint,
  boolean,
  check,
  date,
  doublePrecision,
  foreignKey,
  index,
  integer,
  json,
  jsonb,
  pgSchema,
  primaryKey,
  text,
  timestamp,
  uniqueIndex,
  uuid,
} from 'drizzle-orm/pg-core';
import type { Column } from '@/lib/intake/columns';
import type { Judged, Reason } from '@/lib/intake/judged';
import type { Assay, Design, Outcome, Result } from '@/lib/vocabulary/terms';

/** What laboratories sent, and what intake made of each row. Private: nothing here is ever shown to the public. */
export const intake = pgSchema('intake');

/** How a record counts: screened, arrived but could not be screened, screened in a run that is void, or a check. */
export type RecordKind = NonNullable<Judged['kind']>;

/** What is remembered of a laboratory's sheets: how headings are read, and what a lacking column would say. */
export const laboratory = intake.table('laboratory', {
  name: text().primaryKey(),
  headings: jsonb().notNull().$type<Record<string, Column | null>>().default({}),
  lacking: jsonb().notNull().$type<Partial<Record<Column, string>>>().default({}),
});

/** A cell text that a person explained once: from then on it is read as another text, in every sheet of the laboratory. */
export const reading = intake.table(
  'reading',
  {
    laboratory: text()
      .notNull()
      .references(() => laboratory.name),
    column: text('column_name').notNull().$type<Column>(),
    /** As sent. */
    text: text().notNull(),
    readAs: text('read_as').notNull(),
  },
  (t) => [primaryKey({ columns: [t.laboratory, t.column, t.text] })],
);

/** One file that was imported. An import that was undone stays, with its rows; they count no longer. */
export const sheet = intake.table(
  'sheet',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    fileName: text('file_name').notNull(),
    sha256: text().notNull(),
    laboratory: text()
      .notNull()
      .references(() => laboratory.name),
    importedAt: timestamp('imported_at', { withTimezone: true }).notNull().defaultNow(),
    importedBy: text('imported_by').notNull().default(''),
    /** The day that counted as today when the sheet was judged. */
    asOf: date('as_of', { mode: 'string' }).notNull(),
    caseDefinition: text('case_definition').notNull(),
    /** All headings in the order of the sheet, by which its rows are kept; none of a sheet whose rows name theirs. */
    headings: text().array().notNull().default([]),
    /** The sheet's own heading of each column that it has. */
    columns: jsonb().notNull().$type<Partial<Record<Column, string>>>().default({}),
    /** What each column that it lacks was taken to say. */
    lacking: jsonb().notNull().$type<Partial<Record<Column, string>>>().default({}),
    accepted: integer().notNull().default(0),
    inQuestion: integer('in_question').notNull().default(0),
    refused: integer().notNull().default(0),
    undoneAt: timestamp('undone_at', { withTimezone: true }),
  },
  (t) => [
    uniqueIndex('sheet_stands_once').on(t.sha256).where(sql`${t.undoneAt} is null`),
    check('sheet_sha256', sql`${t.sha256} ~ '^[0-9a-f]{64}$'`),
  ],
);

/** A row's fields in the order of its sheet's headings; or by heading, where the row is no whole one or was stored long ago. */
export type StoredRaw = string[] | Readonly<Record<string, string>>;

/** One row of a sheet: as it was sent (`raw`, with what it says of places and people), and as it is read now. */
export const record = intake.table(
  'record',
  {
    /** A sheet that is there, and stays while it has rows: kept by triggers (migration `lighter_rows`). */
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
    line: integer().notNull(),
    /** JSON as text: it keeps the order of the sheet's columns. */
    raw: json().notNull().$type<StoredRaw>(),
    outcome: text().notNull().$type<Outcome>(),
    reasons: jsonb().notNull().$type<Reason[]>(),
    flags: text().array().notNull(),
    kind: text().$type<RecordKind>(),
    /** False once its import was undone: the row is kept and counts nowhere. */
    standing: boolean().notNull().default(true),
    sample: text(),
    season: integer(),
    species: text(),
    county: text(),
    locatedBy: text('located_by'),
    certainty: text(),
    lat: doublePrecision(),
    lon: doublePrecision(),
    group: integer('group_number'),
    actives: text().array().notNull(),
    assay: text().$type<Assay>(),
    rateMultiple: doublePrecision('rate_multiple'),
    run: text(),
    replicate: text(),
    treated: integer(),
    alive: integer(),
    result: text().$type<Result>(),
    design: text().$type<Design>(),
    crop: text(),
    funder: text(),
    sender: text(),
    operation: text(),
    bag: text(),
    publicShare: boolean('public_share').notNull(),
    collected: text(),
    datePrecision: text('date_precision'),
    received: text(),
    /** What else the row carries: plants, heights, further dates, checks, emergence. */
    details: jsonb().notNull().$type<Judged['details']>().default({}),
    /** Which population and which test the record belongs to: see db/repositories/keys.ts. */
    populationKey: uuid('population_key'),
    testKey: uuid('test_key'),
    /** All that the record says of its test: the same again is the same row sent twice. */
    contentHash: uuid('content_hash'),
  },
  (t) => [
    primaryKey({ columns: [t.sheetId, t.record] }),
    // Records of a test are found by this one too: a test belongs to a population. Nothing but equality is asked of it.
    index('record_of_population')
      .using('hash', t.populationKey)
      .where(sql`${t.standing} and ${t.kind} is not null`),
    index('record_near')
      .on(t.operation, t.season, t.sheetId)
      .where(sql`${t.standing} and ${t.kind} = 'tested' and ${t.lat} is not null`),
    index('record_of_bag')
      .on(t.bag, t.season)
      .where(sql`${t.standing} and ${t.kind} is not null and ${t.bag} is not null`),
    check('record_outcome', sql`${t.outcome} in ('accepted', 'in question', 'refused')`),
    check('record_kind', sql`${t.kind} in ('tested', 'not testable', 'void run', 'check')`),
    check(
      'record_accepted_is_complete',
      sql`${t.outcome} <> 'accepted' or ${t.kind} is not distinct from 'check' or (${t.kind} is not distinct from 'tested' and ${t.group} is not null and ${t.result} is not null and ${t.testKey} is not null and ${t.contentHash} is not null)`,
    ),
    check('record_in_question_waits', sql`${t.outcome} <> 'in question' or ${t.kind} is null`),
    check(
      'record_counted_is_placed',
      sql`${t.kind} is null or ${t.kind} = 'check' or (${t.sample} is not null and ${t.season} is not null and ${t.species} is not null and ${t.county} is not null and ${t.design} is not null and ${t.assay} is not null and ${t.populationKey} is not null)`,
    ),
  ],
);

/** What a person said to a question, or changed in a row. */
export type Answer =
  /** Cells to be read as other texts. */
  | { kind: 'reads'; cells: Partial<Record<Column, string>> }
  /** The row stands as it is, in spite of this reason. */
  | { kind: 'stands'; code: string }
  /** The row does not count. */
  | { kind: 'dropped' };

/** One reason for which a record waits: what is asked, and what was answered. */
export const question = intake.table(
  'question',
  {
    id: bigint({ mode: 'number' }).primaryKey().generatedAlwaysAsIdentity(),
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
    reason: jsonb().notNull().$type<Reason>(),
    askedAt: timestamp('asked_at', { withTimezone: true }).notNull().defaultNow(),
    /** Set when it was answered, or when an answer to another question made it needless. */
    closedAt: timestamp('closed_at', { withTimezone: true }),
    answeredBy: text('answered_by'),
    answer: jsonb().$type<Answer>(),
  },
  (t) => [
    foreignKey({ columns: [t.sheetId, t.record], foreignColumns: [record.sheetId, record.record] }),
    index('question_of_record').on(t.sheetId, t.record),
    index('question_open').on(t.id).where(sql`${t.closedAt} is null`),
  ],
);

/** The answers that a record is read with, in the order in which they were given. */
export const amendment = intake.table(
  'amendment',
  {
    id: bigint({ mode: 'number' }).primaryKey().generatedAlwaysAsIdentity(),
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
    answer: jsonb().notNull().$type<Answer>(),
  },
  (t) => [
    foreignKey({ columns: [t.sheetId, t.record], foreignColumns: [record.sheetId, record.record] }),
    index('amendment_of_record').on(t.sheetId, t.record),
  ],
);

/** What was done, when and by whom; nothing is ever removed from it. `before` and `after` hold what it changed. */
export const history = intake.table(
  'history',
  {
    id: bigint({ mode: 'number' }).primaryKey().generatedAlwaysAsIdentity(),
    at: timestamp({ withTimezone: true }).notNull().defaultNow(),
    by: text('done_by').notNull(),
    what: text().notNull().$type<HistoryKind>(),
    sheetId: integer('sheet_id').references(() => sheet.id),
    record: integer(),
    why: text().notNull().default(''),
    before: jsonb(),
    after: jsonb(),
  },
  (t) => [index('history_of_record').on(t.sheetId, t.record)],
);

export type HistoryKind =
  | 'import'
  | 'import undone'
  | 'question answered'
  | 'record corrected'
  | 'record retracted'
  | 'laboratory changed'
  | 'first find confirmed'
  | 'first find reopened'
  | 'earlier find entered'
  | 'earlier find removed'
  | 'case definition applied'
  | 'erratum added'
  | 'release published'
  | 'release withdrawn'
  | 'briefing worded'
  | 'results reported'
  | 'vocabulary added'
  | 'programme changed'
  | 'policy chosen'
  | 'districts loaded'
  | 'consent withdrawn'
  | 'operation deleted'
  | 'season closed'
  | 'county recoded'
  | 'crop areas loaded'
  | 'crop areas removed';

/** What a person said of a sheet's headings before it is imported: kept as they say it, so that nothing is said twice. */
export interface SheetMapping {
  /** What a heading (as `headingKey` writes it) means; null leaves it aside. */
  headings: Record<string, Column | null>;
  /** What every row would say where the sheet lacks a column. */
  lacking: Partial<Record<Column, string>>;
}

/** A file that was handed in by the browser and waits on disk until it is imported or put away. */
export const upload = intake.table('upload', {
  /** Name of the file on disk. */
  id: uuid().primaryKey(),
  fileName: text('file_name').notNull(),
  bytes: bigint({ mode: 'number' }).notNull(),
  sha256: text().notNull(),
  laboratory: text().notNull(),
  mapping: jsonb().notNull().$type<SheetMapping>().default({ headings: {}, lacking: {} }),
  handedInAt: timestamp('handed_in_at', { withTimezone: true }).notNull().defaultNow(),
  handedInBy: text('handed_in_by').notNull(),
  /** Jobs of its last dry run and of its import. */
  trialJob: uuid('trial_job'),
  importJob: uuid('import_job'),
  /** The import that came of it. */
  sheetId: integer('sheet_id').references(() => sheet.id),
  /** Set when its file was removed from disk. */
  putAwayAt: timestamp('put_away_at', { withTimezone: true }),
});
