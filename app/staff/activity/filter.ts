import { z } from 'zod';
import type { ActivityFilter } from '@/db/repositories/activity';

const word = z.string().trim().max(200).optional().catch(undefined);
const day = z.iso.date().optional().catch(undefined);

const schema = z.object({
  by: word,
  what: word,
  about: word,
  from: day,
  to: day,
  before: z.coerce.number().int().positive().optional().catch(undefined),
});

/** The filter that an address asks for; what is no value of its kind is left out. */
export function readFilter(search: Record<string, unknown>): ActivityFilter {
  const given = Object.entries(schema.parse(search)).filter(
    ([, value]) => value !== undefined && value !== '',
  );
  return Object.fromEntries(given);
}

/** The address part for a filter. */
export function filterQuery(filter: ActivityFilter): string {
  return new URLSearchParams(Object.entries(filter).map(([name, value]) => [name, String(value)])).toString();
}
