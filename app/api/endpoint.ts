import type { z } from 'zod';
import type { PublicDatabase } from '@/db/clients/public';
import type { Region } from '@/lib/geography/types';
import type { ReleaseHead } from '@/lib/release/types';

/** What an answer is made of: through the public role, and a release where the path names one. */
export interface Context {
  db: PublicDatabase;
  head?: ReleaseHead;
  region?: Region;
}

export interface Endpoint {
  name: string;
  /** Below `/api/v1`; `{release}` is a number or `latest`. */
  path: string;
  /** One line. */
  summary: string;
  /** Of the one item, or of each item of a list. */
  item: z.ZodType;
  query: Record<string, z.ZodType>;
  /** Columns of the list as CSV; absent: JSON only. */
  csv?: readonly string[];
  one?: (context: Context, query: Record<string, unknown>) => Promise<object>;
  list?: (context: Context, query: Record<string, unknown>) => Promise<Record<string, unknown>[]>;
}
