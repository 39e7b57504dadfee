import { sql } from 'drizzle-orm';
import {
  bigint,
  boolean,
  check,
  index,
  integer,
  jsonb,
  pgSchema,
  primaryKey,
  text,
  timestamp,
  unique,
} from 'drizzle-orm/pg-core';
import type { Role } from '@/lib/vocabulary/roles';

/** Who may enter the staff side, and what they did there. Private. */
export const access = pgSchema('access');

const instant = (name: string) => timestamp(name, { withTimezone: true });
const madeAndChanged = {
  createdAt: instant('created_at').notNull().defaultNow(),
  updatedAt: instant('updated_at').notNull().defaultNow(),
};

/** Somebody with an account. It is closed when they leave, and stays, so that what they did keeps its name. */
export const person = access.table('person', {
  id: text().primaryKey(),
  name: text().notNull(),
  /** In lower case. */
  email: text().notNull().unique(),
  emailVerified: boolean('email_verified').notNull().default(false),
  image: text(),
  twoFactorEnabled: boolean('two_factor_enabled').notNull().default(false),
  closedAt: instant('closed_at'),
  ...madeAndChanged,
});

const personId = () =>
  text('person_id')
    .notNull()
    .references(() => person.id, { onDelete: 'cascade' });

/** A role that a person has; several may be had. */
export const personRole = access.table(
  'person_role',
  { personId: personId(), role: text().notNull().$type<Role>() },
  (t) => [
    primaryKey({ columns: [t.personId, t.role] }),
    check('person_role_known', sql`${t.role} in ('educator', 'analyst', 'publisher', 'administrator')`),
  ],
);

/** A county whose private aggregates an educator may see. */
export const personCounty = access.table(
  'person_county',
  { personId: personId(), county: text().notNull() },
  (t) => [
    primaryKey({ columns: [t.personId, t.county] }),
    check('person_county_fips', sql`${t.county} ~ '^[0-9]{5}$'`),
  ],
);

/** Being signed in, on one device. */
export const session = access.table(
  'session',
  {
    id: text().primaryKey(),
    token: text().notNull().unique(),
    userId: personId(),
    expiresAt: instant('expires_at').notNull(),
    ipAddress: text('ip_address'),
    userAgent: text('user_agent'),
    ...madeAndChanged,
  },
  (t) => [index('session_of_person').on(t.userId)],
);

/** How a person proves who they are: a password as argon2id hash. */
export const credential = access.table(
  'credential',
  {
    id: text().primaryKey(),
    accountId: text('account_id').notNull(),
    providerId: text('provider_id').notNull(),
    userId: personId(),
    password: text(),
    accessToken: text('access_token'),
    refreshToken: text('refresh_token'),
    idToken: text('id_token'),
    accessTokenExpiresAt: instant('access_token_expires_at'),
    refreshTokenExpiresAt: instant('refresh_token_expires_at'),
    scope: text(),
    ...madeAndChanged,
  },
  (t) => [index('credential_of_person').on(t.userId)],
);

/** A link or challenge that was sent and not used yet. */
export const verification = access.table(
  'verification',
  {
    id: text().primaryKey(),
    identifier: text().notNull(),
    value: text().notNull(),
    expiresAt: instant('expires_at').notNull(),
    ...madeAndChanged,
  },
  (t) => [index('verification_identifier').on(t.identifier)],
);

/** A second factor: the secret of the codes (encrypted) and the codes for the day when the device is lost. */
export const secondFactor = access.table(
  'second_factor',
  {
    id: text().primaryKey(),
    secret: text().notNull(),
    backupCodes: text('backup_codes').notNull(),
    userId: personId(),
    verified: boolean().default(true),
    failedVerificationCount: integer('failed_verification_count').default(0),
    lockedUntil: instant('locked_until'),
  },
  (t) => [index('second_factor_of_person').on(t.userId)],
);

/** A role whose holders must have a second factor. */
export const factorDuty = access.table('factor_duty', { role: text().primaryKey().$type<Role>() }, (t) => [
  check('factor_duty_role', sql`${t.role} in ('educator', 'analyst', 'publisher', 'administrator')`),
]);

/** How often an address asked for something that is throttled. */
export const throttle = access.table('throttle', {
  id: text().primaryKey(),
  key: text().notNull().unique(),
  count: integer().notNull(),
  lastRequest: bigint('last_request', { mode: 'number' }).notNull(),
});

/** Who did what, when, to what. Rows are added and never changed (migration `access`). */
export const activity = access.table(
  'activity',
  {
    id: bigint({ mode: 'number' }).primaryKey().generatedAlwaysAsIdentity(),
    at: instant('at').notNull().defaultNow(),
    /** Null where no account acted: a command, or somebody who is not signed in. */
    personId: text('person_id'),
    /** Name at the time. */
    by: text('done_by').notNull(),
    /** The right that was used, or what happened to an account. */
    what: text().notNull(),
    /** To what, in words. */
    about: text().notNull().default(''),
    details: jsonb().notNull().$type<Record<string, unknown>>().default({}),
  },
  (t) => [index('activity_when').on(t.at), index('activity_of_person').on(t.personId, t.id)],
);

/** A view of the results table that somebody keeps under a name: the address that shows it. */
export const savedView = access.table(
  'saved_view',
  {
    id: integer().primaryKey().generatedAlwaysAsIdentity(),
    personId: personId(),
    name: text().notNull(),
    /** What stands behind the question mark. */
    query: text().notNull(),
    savedAt: instant('saved_at').notNull().defaultNow(),
  },
  (t) => [unique('saved_view_once').on(t.personId, t.name), check('saved_view_name', sql`${t.name} <> ''`)],
);
