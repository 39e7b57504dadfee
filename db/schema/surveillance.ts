import { sql } from 'drizzle-orm';
import {
  boolean,
  check,
  doublePrecision,
  foreignKey,
  integer,
  jsonb,
  pgSchema,
  text,
  timestamp,
  unique,
} from 'drizzle-orm/pg-core';
import type { AuditReport } from '@/lib/disclosure/types';
import type { Assay, Design, Result } from '@/lib/vocabulary/terms';
import { record, type TestKind } from './intake';

/** What the programme knows: its populations and their tests. Private, and without coordinates. */
export const surveillance = pgSchema('surveillance');

/** The programme itself: one row, set once. */
export const programme = surveillance.table(
  'programme',
  {
    only: boolean().primaryKey().default(true),
    name: text().notNull(),
    regionName: text('region_name').notNull(),
    /** Two-letter postal abbreviations. */
    states: text().array().notNull(),
    simulated: boolean().notNull(),
    /** Laboratory of a sheet that names none. */
    laboratory: text().notNull(),
    createdAt: timestamp('created_at', { withTimezone: true }).notNull().defaultNow(),
  },
  (t) => [check('programme_is_one', sql`${t.only}`)],
);

/** A season, open until a person closes it. */
export const season = surveillance.table('season', {
  year: integer().primaryKey(),
  closedAt: timestamp('closed_at', { withTimezone: true }),
});

/** One species from one field in one season. */
export const population = surveillance.table(
  'population',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    laboratory: text().notNull(),
    sample: text().notNull(),
    season: integer()
      .notNull()
      .references(() => season.year),
    species: text().notNull(),
    county: text().notNull(),
    locatedBy: text('located_by'),
    /** Opaque id of the farm; null = not told. */
    operation: text(),
    sender: text(),
    design: text().notNull().$type<Design>(),
    crop: text(),
    funder: text(),
    collected: text(),
    datePrecision: text('date_precision'),
    received: text(),
    publicShare: boolean('public_share').notNull(),
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
  },
  (t) => [
    unique('population_once').on(t.laboratory, t.sample, t.season, t.species),
    foreignKey({ columns: [t.sheetId, t.record], foreignColumns: [record.sheetId, record.record] }),
    check('population_county', sql`${t.county} ~ '^[0-9]{5}$'`),
    check('population_design', sql`${t.design} in ('submitted', 'random', 'follow-up', 'roadside')`),
  ],
);

/** One screening of a population: an active (or mixture of one group) at one rate in one assay. */
export const test = surveillance.table(
  'test',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    populationId: integer('population_id')
      .notNull()
      .references(() => population.id),
    group: integer('group_number').notNull(),
    /** ISO common names, sorted; empty where the sheet names the group alone. */
    actives: text().array().notNull(),
    assay: text().notNull().$type<Assay>(),
    /** Multiple of the label rate. */
    rateMultiple: doublePrecision('rate_multiple'),
    treated: integer(),
    alive: integer(),
    kind: text().notNull().$type<TestKind>(),
    /** Null exactly where `kind` is not `tested`. */
    result: text().$type<Result>(),
    caseDefinition: text('case_definition').notNull(),
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
  },
  (t) => [
    unique('test_once')
      .on(t.populationId, t.group, t.assay, t.actives, t.rateMultiple, t.kind)
      .nullsNotDistinct(),
    foreignKey({ columns: [t.sheetId, t.record], foreignColumns: [record.sheetId, record.record] }),
    check('test_assay', sql`${t.assay} in ('whole plant', 'soil-applied', 'molecular')`),
    check('test_kind', sql`${t.kind} in ('tested', 'not testable', 'void run')`),
    check('test_result', sql`${t.result} in ('resistant', 'some survivors', 'susceptible', 'inconclusive')`),
    check('test_result_when_tested', sql`(${t.kind} = 'tested') = (${t.result} is not null)`),
    check('test_counts', sql`${t.alive} between 0 and ${t.treated}`),
  ],
);

/** What the audit of a release said: private, because a refusal names cells. */
export const releaseAudit = surveillance.table('release_audit', {
  release: integer().primaryKey(),
  report: jsonb().notNull().$type<AuditReport>(),
});
