import type { TransactionSql } from 'postgres';
import { isSameField } from '@/lib/intake/same-field';
import type { Claim, StandingContext } from './standing';

/** A stored record that may be of the same field. */
export interface Near {
  fileName: string;
  record: number;
  sample: string;
}

interface StoredField extends Near {
  operation: string;
  season: number;
  species: string;
  group: number;
  rateMultiple: number | null;
  lat: number;
  lon: number;
}

/**
 * For each record of a batch that has a point: an earlier record with another sample number, but the same operation,
 * species, group, rate and season, from the same place. The rows of the sheet itself were held against each other before;
 * for a record that is judged again they count too.
 */
export async function nearFields(
  sql: TransactionSql,
  { sheetId, itself }: StandingContext,
  records: readonly Claim[],
): Promise<Map<number, Near>> {
  const pointed = records.filter((r) => r.kind === 'tested' && r.operation !== null && r.lat !== null);
  const places = new Map(pointed.map((r) => [`${r.operation}\u001f${r.season}`, r]));
  if (places.size === 0) return new Map();
  const [operations, seasons] = [
    [...places.values()].map((r) => r.operation!),
    [...places.values()].map((r) => r.season!),
  ];
  const stored = await sql<StoredField[]>`
    select s.file_name as "fileName", r.record, r.sample, r.operation, r.season, r.species, r.group_number as "group",
      r.rate_multiple as "rateMultiple", r.lat, r.lon
    from unnest(${operations}::text[], ${seasons}::int[]) as place (operation, season)
    join intake.record r on r.operation = place.operation and r.season = place.season and r.standing
      and r.kind = 'tested' and r.lat is not null
      and r.sheet_id <= ${sheetId} and (r.sheet_id, r.record) < (${sheetId}, ${itself ?? 0})
    join intake.sheet s on s.id = r.sheet_id
    order by r.sheet_id, r.record`;
  const byTest = new Map<string, StoredField[]>();
  for (const field of stored) byTest.set(testOf(field), [...(byTest.get(testOf(field)) ?? []), field]);
  return new Map(
    pointed.flatMap((r) => {
      const near = byTest
        .get(testOf(r))
        ?.find((field) => field.sample !== r.sample && isSameField(field, { lat: r.lat!, lon: r.lon! }));
      return near ? [[r.record, near] as const] : [];
    }),
  );
}

function testOf(r: Pick<Claim, 'operation' | 'season' | 'species' | 'group' | 'rateMultiple'>): string {
  return [r.operation, r.season, r.species, r.group, r.rateMultiple].join('\u001f');
}
