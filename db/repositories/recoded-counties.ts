import type { Fips } from '@/lib/vocabulary/terms';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { addHistory } from './history';

/** Counties that have another code now: old code → new one, each followed to the code that stands. */
export async function recodedCounties(db: StaffDatabase): Promise<Map<Fips, Fips>> {
  const rows = await db.$client<{ before: string; after: string }[]>`
    select before, after from surveillance.recoded_county`;
  const next = new Map(rows.map(({ before, after }) => [before, after]));
  const last = (code: Fips): Fips => {
    let at = code;
    for (let steps = 0; next.has(at) && steps <= next.size; steps++) at = next.get(at)!;
    return at;
  };
  return new Map([...next.keys()].map((code) => [code, last(code)]));
}

/**
 * Records that a county has another code and is otherwise the same: stored results are read under the new one.
 *
 * @param known codes of the region as it is now
 * @throws UserError where the new code is none of the region or is in an earlier release beside the old one, the old one
 *   still is one, or either was recoded before
 */
export async function recordRecoding(
  db: StaffDatabase,
  {
    before,
    after,
    why,
    by,
    known,
  }: { before: Fips; after: Fips; why: string; by: string; known: ReadonlySet<Fips> },
): Promise<void> {
  if (known.has(before)) refuse(`County ${before} still has this code in the region.`);
  if (!known.has(after)) refuse(`The region has no county ${after}.`);
  const has = (fips: Fips) => jsonText([{ fips }]);
  await db.$client.begin(async (sql) => {
    const [both] = await sql<{ release: number }[]>`
      select release from surveillance.release_basis
      where places->'counties' @> ${has(before)}::text::jsonb and places->'counties' @> ${has(after)}::text::jsonb
      order by release limit 1`;
    if (both) refuse(`Release ${both.release} has both counties: one that took in another is not renamed.`);
    const added = await sql`
      insert into surveillance.recoded_county (before, after, why, recorded_by)
      values (${before}, ${after}, ${why}, ${by}) on conflict do nothing`;
    if (added.count === 0) refuse(`County ${before} or ${after} was recoded before.`);
    await addHistory(sql, {
      by,
      what: 'county recoded',
      why,
      before: { county: before },
      after: { county: after },
    });
  });
}

function refuse(reason: string): never {
  throw new UserError(reason, 'Only a county with another code and the same outline can be recoded.');
}
