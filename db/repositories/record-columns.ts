import { jsonText } from '../bulk';
import type { RecordKeys } from './keys';
import type { JudgedRecord } from './sheets';

/** The columns of `intake.record` that intake writes. */
export const COLUMNS = [
  ...['sheet_id', 'record', 'line', 'raw', 'outcome', 'reasons', 'flags', 'kind', 'sample', 'season'],
  ...['species', 'county', 'located_by', 'certainty', 'lat', 'lon', 'group_number', 'actives', 'assay'],
  ...[
    'rate_multiple',
    'run',
    'replicate',
    'treated',
    'alive',
    'result',
    'design',
    'crop',
    'funder',
    'sender',
  ],
  ...['operation', 'bag', 'public_share', 'collected', 'date_precision', 'received', 'details'],
  ...['population_key', 'test_key', 'content_hash'],
];

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
