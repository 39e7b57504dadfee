import { sql } from 'drizzle-orm';
import {
  bigint,
  boolean,
  check,
  date,
  doublePrecision,
  index,
  integer,
  jsonb,
  pgSchema,
  primaryKey,
  text,
  timestamp,
  unique,
  uuid,
} from 'drizzle-orm/pg-core';
import type { Fact } from '@/lib/cube/types';
import type { PlaceTree } from '@/lib/disclosure/places';
import type { AuditReport, Policy } from '@/lib/disclosure/types';
import type { AnalysisPart } from '@/lib/findings/analysis/types';
import type { Waiting } from '@/lib/release/revision/types';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Assay, Design, Result } from '@/lib/vocabulary/terms';
import { sheet } from './intake';

/** How a test counts: screened, arrived but could not be screened, or screened in runs that are void. */
export type TestKind = 'tested' | 'not testable' | 'void run';

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
    /** Version of the case definition by which results are derived; null = the one in force on the day of import. */
    caseDefinition: text('case_definition'),
    /** SPDX identifier of the licence of its releases' data; null = none chosen. */
    licence: text(),
    simulated: boolean().notNull(),
    /** Laboratory of a sheet that names none. */
    laboratory: text().notNull(),
    /** Whom to ask, as it stands on letters and pages; '' = not said. */
    contact: text().notNull().default(''),
    /** Where seed is sent, with what to send along; '' = not said. */
    samplesTo: text('samples_to').notNull().default(''),
    /** What the law of the region asks of finders of regulated weeds; '' = not said. */
    regulatedNotice: text('regulated_notice').notNull().default(''),
    /** Whether a release is published by another person than the one who drafted it. */
    twoPublishers: boolean('two_publishers').notNull().default(false),
    createdAt: timestamp('created_at', { withTimezone: true }).notNull().defaultNow(),
  },
  (t) => [check('programme_is_one', sql`${t.only}`)],
);

/** Rules of disclosure that the programme chose, in their order; the newest stands, for releases to come. */
export const policy = surveillance.table('policy', {
  id: integer().primaryKey().generatedAlwaysAsIdentity(),
  policy: jsonb().notNull().$type<Policy>(),
  chosenAt: timestamp('chosen_at', { withTimezone: true }).notNull().defaultNow(),
  chosenBy: text('chosen_by').notNull(),
  why: text().notNull(),
});

/** The district of a county, where the programme brought districts of its own. */
export const district = surveillance.table(
  'district',
  {
    county: text().primaryKey(),
    code: text().notNull(),
    name: text().notNull(),
  },
  (t) => [
    check('district_county', sql`${t.county} ~ '^[0-9]{5}$'`),
    check('district_code', sql`${t.code} <> '' and ${t.name} <> ''`),
  ],
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
    /** Of laboratory, sample, season and species: see db/repositories/keys.ts. */
    key: uuid().notNull(),
    laboratory: text().notNull(),
    sample: text().notNull(),
    /** A season that is there, and stays while it has populations: kept by triggers (migration `lighter_tests`). */
    season: integer().notNull(),
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
    /** Day on which the sender was told; null = not yet. */
    reported: date({ mode: 'string' }),
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
  },
  (t) => [
    unique('population_key_once').on(t.key),
    // Each is an order of the results table as well, with the id as what comes next (db/repositories/results).
    index('population_of_season').on(t.season, t.id),
    index('population_of_county').on(t.county, t.id),
    index('population_of_sample').on(sql`(upper(${t.sample}) collate "C")`, t.id),
    check('population_county', sql`${t.county} ~ '^[0-9]{5}$'`),
    check('population_design', sql`${t.design} in ('submitted', 'random', 'follow-up', 'roadside')`),
  ],
);

/**
 * One screening of a population: an active (or mixture of one group) at one rate in one assay, with the plants of all its
 * replicates and valid runs. Derived from `intake.record` and made anew whenever one of its records changes.
 */
export const test = surveillance.table(
  'test',
  {
    /** Of population, group, actives, assay and rate: see db/repositories/keys.ts. */
    key: uuid().primaryKey(),
    /** A population that is there, and stays while it has tests: kept by triggers (migration `lighter_rows`). */
    populationId: integer('population_id').notNull(),
    /** Of the population, which never changes it: kept by the same triggers (migration `species_of_tests`). */
    species: text().notNull(),
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
    /** True while its runs contradict each other and a person has not said which holds: it counts as inconclusive. */
    contradictory: boolean().notNull().default(false),
    sheetId: integer('sheet_id').notNull(),
    record: integer().notNull(),
  },
  (t) => [
    index('test_of_population').on(t.populationId, t.group),
    // A weed and group in the order of its populations. That it includes assay, kind and result stands in the migration
    // alone, since Drizzle has no words for it.
    index('test_of_pair').on(t.species, t.group, t.populationId),
    // Results that are asked for by name; most are susceptible.
    index('test_of_result')
      .on(sql`(coalesce(${t.result}, ${t.kind}))`, t.species, t.group, t.populationId)
      .where(sql`coalesce(${t.result}, ${t.kind}) <> 'susceptible'`),
    check('test_assay', sql`${t.assay} in ('whole plant', 'soil-applied', 'molecular')`),
    check('test_kind', sql`${t.kind} in ('tested', 'not testable', 'void run')`),
    check('test_result', sql`${t.result} in ('resistant', 'some survivors', 'susceptible', 'inconclusive')`),
    check('test_result_when_tested', sql`(${t.kind} = 'tested') = (${t.result} is not null)`),
    check('test_counts', sql`${t.alive} between 0 and ${t.treated}`),
  ],
);

/**
 * A greenhouse run whose checks were sown: whether its trays count. A run that is not listed had no check rows of its
 * own; what its rows say of the check decided.
 */
export const run = surveillance.table(
  'run',
  {
    laboratory: text().notNull(),
    name: text().notNull(),
    valid: boolean().notNull(),
    /** Why it is void, or in doubt. */
    why: text().notNull(),
  },
  (t) => [primaryKey({ columns: [t.laboratory, t.name] })],
);

/**
 * The first resistant result of a species × group (× active) in a state: it awaits a second run, and resistant results
 * of the same kind in the state stay out of releases until a person confirms it.
 */
export const firstFind = surveillance.table(
  'first_find',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    /** Two-digit FIPS code of the state. */
    stateFips: text('state_fips').notNull(),
    species: text().notNull(),
    group: integer('group_number').notNull(),
    /** ISO common names joined by +; empty where the sheet names the group alone. */
    active: text().notNull(),
    testKey: uuid('test_key').notNull(),
    foundAt: timestamp('found_at', { withTimezone: true }).notNull().defaultNow(),
    confirmedAt: timestamp('confirmed_at', { withTimezone: true }),
    confirmedBy: text('confirmed_by'),
    note: text(),
  },
  (t) => [
    unique('first_find_once').on(t.stateFips, t.species, t.group, t.active),
    check('first_find_confirmed', sql`(${t.confirmedAt} is null) = (${t.confirmedBy} is null)`),
  ],
);

/** A find known before the programme: it counts as confirmed earlier, never as tested. */
export const earlierFind = surveillance.table(
  'earlier_find',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    species: text().notNull(),
    group: integer('group_number').notNull(),
    active: text().notNull().default(''),
    season: integer().notNull(),
    county: text().notNull(),
    source: text().notNull(),
  },
  (t) => [
    unique('earlier_find_once').on(t.species, t.group, t.active, t.season, t.county),
    check('earlier_find_county', sql`${t.county} ~ '^[0-9]{5}$'`),
    check('earlier_find_source', sql`${t.source} <> ''`),
  ],
);

/**
 * Area of a crop in a county in a year, from a table that the programme's staff loaded: what there is to look at where
 * nothing was sent. Counties that the table does not tell of are absent; a known zero is a row.
 */
export const cropArea = surveillance.table(
  'crop_area',
  {
    /** In lower case, as `sorghum`. */
    crop: text().notNull(),
    year: integer().notNull(),
    county: text().notNull(),
    hectares: doublePrecision().notNull(),
    /** Name of the file that told it. */
    source: text().notNull(),
    loadedAt: timestamp('loaded_at', { withTimezone: true }).notNull().defaultNow(),
    loadedBy: text('loaded_by').notNull(),
  },
  (t) => [
    primaryKey({ columns: [t.crop, t.year, t.county] }),
    check('crop_area_crop', sql`${t.crop} <> ''`),
    check('crop_area_county', sql`${t.county} ~ '^[0-9]{5}$'`),
    check('crop_area_hectares', sql`${t.hectares} >= 0 and ${t.hectares} < 1e9`),
  ],
);

/** Words that this programme added to the vocabulary, each set as it was validated, with its source. */
export const vocabularyAddition = surveillance.table('vocabulary_addition', {
  id: integer().primaryKey().generatedAlwaysAsIdentity(),
  additions: jsonb().notNull(),
});

/** A case definition that this programme brought along; those that come with the project are not stored. */
export const caseDefinition = surveillance.table('case_definition', {
  version: text().primaryKey(),
  definition: jsonb().notNull().$type<CaseDefinition>(),
});

/** One run of the analysis over the whole programme. It is resumed while it is unfinished and its input the same. */
export const analysis = surveillance.table('analysis', {
  id: integer().primaryKey().generatedAlwaysAsIdentity(),
  /** Of the methods: lib/findings/analysis/version.ts. */
  version: text().notNull(),
  seed: bigint({ mode: 'number' }).notNull(),
  /** SHA-256 of the input of all parts. */
  digest: text().notNull(),
  /** Number of parts. */
  parts: integer().notNull(),
  startedAt: timestamp('started_at', { withTimezone: true }).notNull().defaultNow(),
  startedBy: text('started_by').notNull(),
  finishedAt: timestamp('finished_at', { withTimezone: true }),
});

/** One part of an analysis: a map, the spread of a pair, the multiple resistance of a species. Private: counts are exact. */
export const analysisPart = surveillance.table(
  'analysis_part',
  {
    analysisId: integer('analysis_id')
      .notNull()
      .references(() => analysis.id, { onDelete: 'cascade' }),
    kind: text().notNull().$type<AnalysisPart['kind']>(),
    /** What tells it from others of its kind. */
    key: text().notNull(),
    species: text().notNull(),
    /** null: all groups of the species together. */
    group: integer('group_number'),
    /** SHA-256 of what the methods looked at. */
    digest: text().notNull(),
    result: jsonb().notNull().$type<AnalysisPart>(),
  },
  (t) => [
    primaryKey({ name: 'analysis_part_pk', columns: [t.analysisId, t.kind, t.key] }),
    check('analysis_part_kind', sql`${t.kind} in ('map', 'spread', 'multiple')`),
  ],
);

/** Which sheets a release was made from: an import that is in one can be corrected, not undone. */
export const releaseSheet = surveillance.table(
  'release_sheet',
  {
    release: integer().notNull(),
    sheetId: integer('sheet_id')
      .notNull()
      .references(() => sheet.id),
  },
  (t) => [primaryKey({ columns: [t.release, t.sheetId] })],
);

/** What the audit of a release said: private, because a refusal names cells. */
export const releaseAudit = surveillance.table('release_audit', {
  release: integer().primaryKey(),
  report: jsonb().notNull().$type<AuditReport>(),
});

/** How counties lay in districts and states when a release was made, and what waited. A release without one is older. */
export const releaseBasis = surveillance.table('release_basis', {
  release: integer().primaryKey(),
  places: jsonb().notNull().$type<PlaceTree>(),
  waiting: jsonb().notNull().$type<Waiting[]>(),
});

/**
 * Counties that have another code now and are otherwise the same, as a person recorded it. Releases from before are read
 * with the new code. A row stays for ever.
 */
export const recodedCounty = surveillance.table(
  'recoded_county',
  {
    before: text().primaryKey(),
    after: text().notNull().unique(),
    why: text().notNull(),
    recordedBy: text('recorded_by').notNull(),
    recordedAt: timestamp('recorded_at', { withTimezone: true }).notNull().defaultNow(),
  },
  (t) => [check('recoded_county_codes', sql`${t.before} <> ${t.after} and ${t.why} <> ''`)],
);

/**
 * What releases were made of: each population × group × assay as it stood, from the release with which it entered until the
 * one without it. Rows stay for ever, also when a consent is withdrawn: without them nobody could tell what a reader of
 * all releases can subtract. Private.
 */
export const releasedFact = surveillance.table(
  'released_fact',
  {
    /** Key of the population, which outlives its row. */
    population: uuid().notNull(),
    group: integer('group_number').notNull(),
    assay: text().notNull().$type<Assay>(),
    /** Number of the release with which it entered. */
    entered: integer().notNull(),
    /** Number of the first release without it; null = it stands. */
    left: integer(),
    county: text().notNull(),
    season: integer().notNull(),
    species: text().notNull(),
    design: text().notNull().$type<Design>(),
    operation: text(),
    result: text().notNull().$type<Fact['result']>(),
    actives: text().array().notNull(),
    /** As the sheet had it; null = none, or a release from before crops were kept. */
    crop: text(),
    /** What each active showed, where there are several. */
    byActive: jsonb('by_active').$type<Fact['byActive']>(),
  },
  (t) => [
    primaryKey({ columns: [t.population, t.group, t.assay, t.entered] }),
    check('released_fact_left', sql`${t.left} > ${t.entered}`),
  ],
);
