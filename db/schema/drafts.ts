import { sql } from 'drizzle-orm';
import {
  bigint,
  check,
  customType,
  date,
  integer,
  jsonb,
  primaryKey,
  text,
  timestamp,
} from 'drizzle-orm/pg-core';
import { surveillance } from './surveillance';

const instant = (name: string) => timestamp(name, { withTimezone: true });
const bytea = customType<{ data: Buffer }>({ dataType: () => 'bytea' });

/** How a draft of a release ended, or that it waits for a decision. */
export type DraftState = 'open' | 'published' | 'dropped';

/** A release that is built, audited and not published: everything that publishing it would store. Private. */
export const releaseDraft = surveillance.table(
  'release_draft',
  {
    id: bigint({ mode: 'number' }).primaryKey().generatedAlwaysAsIdentity(),
    state: text().notNull().$type<DraftState>().default('open'),
    /** The number that the release would have. */
    number: integer().notNull(),
    date: date({ mode: 'string' }).notNull(),
    note: text().notNull(),
    /** What it was made of, as a digest: a draft is published only while that is so. */
    made: text('made_of').notNull(),
    madeAt: instant('made_at').notNull().defaultNow(),
    madeBy: text('made_by').notNull(),
    personId: text('person_id'),
    /** What whoever decides should know. */
    report: jsonb().notNull().$type<unknown>(),
    /** Release and basis, packed; null when decided. */
    body: bytea(),
    decidedAt: instant('decided_at'),
    decidedBy: text('decided_by'),
  },
  (t) => [check('release_draft_state', sql`${t.state} in ('open', 'published', 'dropped')`)],
);

/** A file that the release would have. */
export const releaseDraftFile = surveillance.table(
  'release_draft_file',
  {
    draft: bigint({ mode: 'number' })
      .notNull()
      .references(() => releaseDraft.id),
    name: text().notNull(),
    mediaType: text('media_type').notNull(),
    sha256: text().notNull(),
    bytes: bytea().notNull(),
    brotli: bytea(),
    gzip: bytea(),
  },
  (t) => [primaryKey({ columns: [t.draft, t.name] })],
);
