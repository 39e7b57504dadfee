import { z } from 'zod';
import type { QueueName } from '@/db/queue';
import { COLUMNS } from '@/lib/intake/columns';
import { POLICY_CHOICE } from './policy-choice';

/** What a kind of long work is asked for, and how it is told of. */
export interface JobKind {
  /** For whoever follows it. */
  title: string;
  /** What is asked for. */
  request: z.ZodType;
  /** True: no second one of its kind may wait or run beside it. */
  alone: boolean;
}

/**
 * The kinds of long work, one for each queue (`db/queue.ts`); what each does stands in `work.ts`.
 */
export const JOB_KINDS = {
  analysis: {
    title: 'Analysis',
    alone: true,
    request: z.object({}),
  },
  'release-draft': {
    title: 'Draft of a release',
    alone: true,
    request: z.object({
      /** ISO day that the release will bear. */
      date: z.iso.date(),
      note: z.string().max(2000),
    }),
  },
  import: {
    title: 'Import of a sheet',
    alone: false,
    request: z.object({ upload: z.uuid(), dryRun: z.boolean() }),
  },
  'finding-loss': {
    title: 'What findings lose by withholding',
    alone: true,
    /** Of an open draft, or of a release that stands. */
    request: z.union([z.strictObject({ draft: z.int() }), z.strictObject({ release: z.int() })]),
  },
  'stated-speed': {
    title: 'A speed from a stated beginning',
    alone: true,
    request: z.object({ species: z.string(), group: z.int(), from: z.string() }),
  },
  'undo-import': {
    title: 'Undoing an import',
    alone: false,
    request: z.object({ sheet: z.int(), why: z.string() }),
  },
  'remembered-reading': {
    title: 'Reading rows as was explained',
    alone: false,
    request: z.object({ sheet: z.int(), record: z.int(), column: z.enum(COLUMNS), readAs: z.string() }),
  },
  'case-definition': {
    title: 'Results by another case definition',
    alone: true,
    /** With `store` the results are derived so from now on; without, it is only looked at what would change. */
    request: z.object({ version: z.string(), store: z.boolean() }),
  },
  'policy-consequences': {
    title: 'Consequences of a policy',
    alone: true,
    request: z.object({ proposed: POLICY_CHOICE }),
  },
} as const satisfies Record<QueueName, JobKind>;

/** What a kind is asked for. */
export type RequestOf<Kind extends QueueName> = z.output<(typeof JOB_KINDS)[Kind]['request']>;
