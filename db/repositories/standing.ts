import type { Sql, TransactionSql } from 'postgres';
import type { Reason } from '@/lib/intake/judged';
import type { Outcome } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { type Content, contentOf } from './content';
import type { JudgedRecord } from './sheets';

/** A record with its content's key, which only accepted records have. */
export type Keyed = JudgedRecord & { content: Content | null };

/** A record that intake accepted and that the store knows better. */
export interface Change {
  record: number;
  outcome: Outcome;
  reason: Reason;
}

/**
 * Content hashes by content key of the accepted records that are stored already, for judging a sheet before it is
 * stored (a dry run, too): see `contentOf`.
 */
export async function knownKeys(
  db: StaffDatabase,
  { keys }: { keys: readonly string[] },
): Promise<Map<string, string>> {
  return keysIn(db.$client, keys);
}

/**
 * What the store holds about the records of a batch: an accepted record that is stored already is refused, one that
 * contradicts what is stored (other data for the same screening; the same sample from another county or operation)
 * is in question. The records come back in their order, each accepted one with its key.
 */
export async function judgeAgainstStore(
  sql: TransactionSql,
  laboratory: string,
  batch: readonly JudgedRecord[],
): Promise<{ records: Keyed[]; changes: Change[] }> {
  const keyed: Keyed[] = batch.map((record) => ({
    ...record,
    content: record.outcome === 'accepted' ? contentOf(laboratory, record) : null,
  }));
  const known = await keysIn(
    sql,
    keyed.flatMap(({ content }) => content?.key ?? []),
  );
  const samples = await samplesIn(sql, laboratory, keyed);
  const changes: Change[] = [];
  const records = keyed.map((record) => {
    if (record.kind === null) return record;
    const change = changeOf(record, known, samples);
    if (change === null) return record;
    if (record.outcome === 'accepted') changes.push(change);
    return changed(record, change);
  });
  return { records, changes };
}

interface Sample {
  county: string | null;
  operation: string | null;
}

function changeOf(r: Keyed, known: Map<string, string>, samples: Map<string, Sample>): Change | null {
  const hash = r.content === null ? undefined : known.get(r.content.key);
  if (hash !== undefined) return hash === r.content?.hash ? repeated(r) : contradicted(r);
  if (r.content !== null) known.set(r.content.key, r.content.hash);

  const name = sampleName(r);
  const sample = samples.get(name);
  if (sample === undefined) samples.set(name, { county: r.county, operation: r.operation });
  else if (sample.county !== r.county || differ(sample.operation, r.operation)) return elsewhere(r, sample);
  return null;
}

const differ = (a: string | null, b: string | null) => a !== null && b !== null && a !== b;

function changed(r: Keyed, { outcome, reason }: Change): Keyed {
  const stays = r.outcome === 'refused';
  const reasons = stays ? [...r.reasons, reason] : [reason, ...r.reasons];
  return { ...r, outcome: stays ? 'refused' : outcome, kind: null, content: null, reasons };
}

const WHOLE_ROW = { column: 'the whole row', value: '' };

function repeated({ record, sample }: Keyed): Change {
  const reason = `Sample ${sample} with this species, group and rate is stored already, with the same data.`;
  const remedy = 'Nothing to do: it counts once.';
  return { record, outcome: 'refused', reason: { ...WHOLE_ROW, code: 'DUPLICATE', reason, remedy } };
}

function contradicted({ record, sample }: Keyed): Change {
  const reason = `Sample ${sample} with this species, group and rate is stored already, with other data.`;
  const remedy = 'Say which of the two holds; a second run needs a note that it is one.';
  return {
    record,
    outcome: 'in question',
    reason: { ...WHOLE_ROW, code: 'DUPLICATE_DIFFERS', reason, remedy },
  };
}

function elsewhere({ record, sample, county, operation }: Keyed, stored: Sample): Change {
  const what =
    stored.county !== county
      ? `comes from county ${stored.county} in an earlier row, and from ${county} in this one`
      : `comes from operation ${stored.operation} in an earlier row, and from ${operation} in this one`;
  const remedy = 'Say which holds; two fields need two sample numbers.';
  const reason = { ...WHOLE_ROW, code: 'SAMPLE_DIFFERS', reason: `Sample ${sample} ${what}.`, remedy };
  return { record, outcome: 'in question', reason };
}

async function keysIn(sql: Sql | TransactionSql, keys: readonly string[]): Promise<Map<string, string>> {
  const rows = await sql<{ key: string; hash: string }[]>`
    select content_key as key, content_hash as hash from intake.record
    where outcome = 'accepted' and content_key = any(${keys as string[]})`;
  return new Map(rows.map(({ key, hash }) => [key, hash]));
}

async function samplesIn(
  sql: TransactionSql,
  laboratory: string,
  records: readonly Keyed[],
): Promise<Map<string, Sample>> {
  const names = [...new Set(records.flatMap(({ kind, sample }) => (kind === null ? [] : (sample ?? []))))];
  const rows = await sql<(Sample & { sample: string; season: number; species: string })[]>`
    select sample, season, species, county, operation from surveillance.population
    where laboratory = ${laboratory} and sample = any(${names})`;
  return new Map(rows.map((row) => [sampleName(row), { county: row.county, operation: row.operation }]));
}

function sampleName(r: { sample: string | null; season: number | null; species: string | null }): string {
  return JSON.stringify([r.sample, r.season, r.species]);
}
