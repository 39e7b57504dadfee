import type { TransactionSql } from 'postgres';
import type { Reason } from '@/lib/intake/judged';
import type { Outcome } from '@/lib/vocabulary/terms';
import { counts, type RecordKeys } from './keys';
import { type Near, nearFields } from './near-fields';
import type { JudgedRecord } from './sheets';

/** What of a record is held against the store. */
export type Claim = RecordKeys &
  Pick<
    JudgedRecord,
    | 'record'
    | 'outcome'
    | 'kind'
    | 'reasons'
    | 'sample'
    | 'season'
    | 'species'
    | 'county'
    | 'lat'
    | 'lon'
    | 'group'
    | 'rateMultiple'
    | 'run'
    | 'replicate'
    | 'operation'
    | 'bag'
  >;

/** A record that intake accepted and that the store knows better. */
export interface Change {
  record: number;
  outcome: Outcome;
  reason: Reason;
}

/** Of which sheet the records are, and for one that is judged again what a person let stand. */
export interface StandingContext {
  laboratory: string;
  sheetId: number;
  /** Codes of reasons that a person overruled. */
  stands?: readonly string[];
  /** The record that is judged again: its own earlier reading is not held against it. */
  itself?: number;
}

/**
 * What the store holds about the records of a batch: an accepted record that is stored already is refused; one that
 * contradicts what is stored (other data for the same screening; the same sample from another county or operation; the
 * same bag under another number; the same field under another number within 150 m) is in question. Records of another
 * run or replicate belong to the same test and are added up. The records are not held against each other.
 *
 * @returns the records as they stand now, in their order, and by record what changed
 */
export async function judgeAgainstStore<T extends Claim>(
  sql: TransactionSql,
  context: StandingContext,
  batch: readonly T[],
): Promise<{ records: T[]; changes: Change[] }> {
  const store = {
    known: await traysIn(sql, context, batch),
    samples: await samplesIn(sql, context, batch),
    bags: await bagsIn(sql, context, batch),
    near: await nearFields(sql, context, batch),
  };
  const changes: Change[] = [];
  const records = batch.map((record) => {
    const change = counts(record) ? changeOf(record, store, context.stands ?? []) : null;
    if (change === null) return record;
    changes.push(change);
    return changed(record, change);
  });
  return { records, changes };
}

interface Tray {
  kind: Claim['kind'];
  run: string | null;
  replicate: string | null;
  hash: string | null;
}

interface Sample {
  county: string | null;
  operation: string | null;
}

interface Store {
  known: ReadonlyMap<string, Tray[]>;
  samples: ReadonlyMap<string, Sample>;
  bags: ReadonlyMap<string, string>;
  near: ReadonlyMap<number, Near>;
}

function changeOf(r: Claim, { known, samples, bags, near }: Store, stands: readonly string[]): Change | null {
  const asks = (code: string) => !stands.includes(code);
  const same = known
    .get(r.testKey ?? '')
    ?.find((tray) => tray.kind === 'tested' && tray.run === r.run && tray.replicate === r.replicate);
  if (r.kind === 'tested' && same) {
    if (same.hash === r.contentHash) return repeated(r);
    if (asks('DUPLICATE_DIFFERS')) return contradicted(r);
  }
  const sample = samples.get(r.populationKey!);
  if (sample && asks('SAMPLE_DIFFERS') && isElsewhere(r, sample)) return elsewhere(r, sample);

  const bag = bagName(r);
  const other = bag === null ? undefined : bags.get(bag);
  if (other !== undefined && other !== r.sample && asks('SAME_BAG')) return sameBag(r, other);

  const field = near.get(r.record);
  return field && asks('SAME_FIELD') ? sameField(r, field) : null;
}

function isElsewhere(r: Claim, { county, operation }: Sample): boolean {
  return county !== r.county || (operation !== null && r.operation !== null && operation !== r.operation);
}

function changed<T extends Claim>(r: T, { outcome, reason }: Change): T {
  const stays = r.outcome === 'refused';
  const reasons = stays ? [...r.reasons, reason] : [reason, ...r.reasons];
  const keys = { populationKey: null, testKey: null, contentHash: null };
  return { ...r, ...keys, outcome: stays ? 'refused' : outcome, kind: null, reasons };
}

const WHOLE_ROW = {
  column: 'the whole row',
  key: null,
  value: '',
  candidates: [],
  memorable: false,
  mayStand: true,
};

function asked({ record }: Claim, code: string, reason: string, remedy: string): Change {
  return { record, outcome: 'in question', reason: { ...WHOLE_ROW, code, reason, remedy } };
}

function repeated({ record, sample }: Claim): Change {
  const reason = `Sample ${sample} with this species, group and rate is stored already, with the same data.`;
  const remedy = 'Nothing to do: it counts once.';
  return { record, outcome: 'refused', reason: { ...WHOLE_ROW, code: 'DUPLICATE', reason, remedy } };
}

function contradicted(r: Claim): Change {
  const reason = `Sample ${r.sample} with this species, group and rate is stored already, with other data.`;
  const remedy = 'Is it a second run (then let it stand), or is one of the two wrong?';
  return asked(r, 'DUPLICATE_DIFFERS', reason, remedy);
}

function elsewhere(r: Claim, stored: Sample): Change {
  const what =
    stored.county !== r.county
      ? `comes from county ${stored.county} in an earlier row, and from ${r.county} in this one`
      : `comes from operation ${stored.operation} in an earlier row, and from ${r.operation} in this one`;
  return asked(
    r,
    'SAMPLE_DIFFERS',
    `Sample ${r.sample} ${what}.`,
    'Say which holds; two fields need two sample numbers.',
  );
}

function sameBag(r: Claim, other: string): Change {
  const reason = `Bag ${r.bag} was brought in as sample ${other} already, and is sample ${r.sample} in this row.`;
  return asked(r, 'SAME_BAG', reason, 'Is it the same bag twice, or are there two bags of this number?');
}

function sameField(r: Claim, { sample, fileName, record }: Near): Change {
  const reason = `Sample ${r.sample} comes from the same operation, species, group and season as sample ${sample} (record ${record} of ${fileName}), and from within 150 m of it.`;
  return asked(r, 'SAME_FIELD', reason, 'Is it the same field twice, or two fields?');
}

function bagName(r: Claim): string | null {
  return r.bag === null ? null : `${r.bag}\u001f${r.season}`;
}

/** The records that the tests of a batch have already, and other tests of their populations. */
async function traysIn(
  sql: TransactionSql,
  { sheetId, itself }: Other,
  records: readonly Claim[],
): Promise<Map<string, Tray[]>> {
  const keys = populationsOf(records.filter(({ testKey }) => testKey !== null));
  const rows = await sql<(Tray & { key: string })[]>`
    select test_key as key, kind, run, replicate, content_hash as hash from intake.record
    where population_key = any(${keys}) and test_key is not null
      and standing and kind is not null and ${isOther(sql, { sheetId, itself })}`;
  return grouped(rows);
}

/**
 * Whether a stored record is held against a batch: for an import those of other sheets (its own were held against each
 * other), for a record that is judged again all but itself.
 */
function isOther(sql: TransactionSql, { sheetId, itself }: Other) {
  return itself === undefined
    ? sql`sheet_id <> ${sheetId}`
    : sql`(sheet_id, record) is distinct from (${sheetId}, ${itself})`;
}

type Other = Pick<StandingContext, 'sheetId' | 'itself'>;

function populationsOf(records: readonly Claim[]): string[] {
  return [...new Set(records.flatMap(({ populationKey }) => populationKey ?? []))];
}

function grouped<T extends { key: string }>(rows: readonly T[]): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const list = groups.get(row.key);
    if (list) list.push(row);
    else groups.set(row.key, [row]);
  }
  return groups;
}

/** Where the samples of a batch came from, by their other records. */
async function samplesIn(
  sql: TransactionSql,
  { sheetId, itself }: StandingContext,
  records: readonly Claim[],
): Promise<Map<string, Sample>> {
  const keys = populationsOf(records);
  const rows =
    itself === undefined
      ? await sql<(Sample & { key: string })[]>`
          select key, county, operation from surveillance.population where key = any(${keys})`
      : await sql<(Sample & { key: string })[]>`
          select distinct on (population_key) population_key as key, county, operation from intake.record
          where population_key = any(${keys}) and standing and kind is not null
            and (sheet_id, record) is distinct from (${sheetId}, ${itself})
          order by population_key, sheet_id, record`;
  return new Map(rows.map(({ key, county, operation }) => [key, { county, operation }]));
}

/** The sample under which each bag of a batch is stored. */
async function bagsIn(
  sql: TransactionSql,
  { laboratory, sheetId, itself }: StandingContext,
  records: readonly Claim[],
): Promise<Map<string, string>> {
  const named = records.filter((r) => counts(r) && r.bag !== null);
  if (named.length === 0) return new Map();
  const rows = await sql<{ bag: string; season: number; sample: string }[]>`
    select r.bag, r.season, r.sample from intake.record r join intake.sheet s on s.id = r.sheet_id
    where s.laboratory = ${laboratory} and r.standing and r.kind is not null
      and (r.bag, r.season) in (select * from unnest(${named.map((r) => r.bag!)}::text[], ${named.map((r) => r.season!)}::int[]))
      and ${isOther(sql, { sheetId, itself })}`;
  return new Map(rows.map(({ bag, season, sample }) => [`${bag}\u001f${season}`, sample]));
}
