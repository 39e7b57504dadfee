import { jsonText } from '../bulk';
import type { CopyType } from '../copy';
import type { RecordKeys } from './keys';
import type { JudgedRecord } from './sheets';

/** The columns of `intake.record` that intake writes, with their types. */
// biome-ignore format: in the order of `valuesOf`
const WRITTEN: readonly (readonly [string, CopyType])[] = [
  ['sheet_id', 'int4'], ['record', 'int4'], ['line', 'int4'], ['raw', 'json'], ['outcome', 'text'], ['reasons', 'jsonb'],
  ['flags', 'text[]'], ['kind', 'text'], ['sample', 'text'], ['season', 'int4'], ['species', 'text'], ['county', 'text'],
  ['located_by', 'text'], ['certainty', 'text'], ['lat', 'float8'], ['lon', 'float8'], ['group_number', 'int4'],
  ['actives', 'text[]'], ['assay', 'text'], ['rate_multiple', 'float8'], ['run', 'text'], ['replicate', 'text'],
  ['treated', 'int4'], ['alive', 'int4'], ['result', 'text'], ['design', 'text'], ['crop', 'text'], ['funder', 'text'],
  ['sender', 'text'], ['operation', 'text'], ['bag', 'text'], ['public_share', 'bool'], ['collected', 'text'],
  ['date_precision', 'text'], ['received', 'text'], ['details', 'jsonb'], ['population_key', 'uuid'], ['test_key', 'uuid'],
  ['content_hash', 'uuid'],
];

export const COLUMNS = WRITTEN.map(([name]) => name);
export const TYPES = WRITTEN.map(([, type]) => type);

/**
 * A record's values in the order of `COLUMNS`; JSON as text.
 *
 * @param sent as it was sent, as it is to be kept
 */
// biome-ignore format: in the order of the columns
export function valuesOf(
  sheetId: number,
  r: JudgedRecord,
  keys: RecordKeys,
  sent: JudgedRecord['fields'] | JudgedRecord['raw'] = r.raw,
): unknown[] {
  return [
    sheetId, r.record, r.line, jsonText(sent), r.outcome, r.reasons.length === 0 ? '[]' : jsonText(r.reasons), r.flags,
    r.kind, r.sample, r.season, r.species, r.county, r.locatedBy, r.certainty, r.lat, r.lon, r.group, r.actives,
    r.assay, r.rateMultiple, r.run, r.replicate, r.treated, r.alive, r.result, r.design, r.crop, r.funder, r.sender,
    r.operation, r.bag, r.publicShare, r.collected, r.datePrecision, r.received, jsonText(r.details),
    keys.populationKey, keys.testKey, keys.contentHash,
  ];
}
