import { hash } from 'node:crypto';
import type { JudgedRecord } from './sheets';

/** What a record belongs to, and the hash of what it says; null where it counts nowhere. */
export interface RecordKeys {
  populationKey: string | null;
  testKey: string | null;
  contentHash: string | null;
}

/** Whether a record is of a population: screened, not testable, or in a void run. */
export function counts({ kind }: Pick<JudgedRecord, 'kind'>): boolean {
  return kind !== null && kind !== 'check';
}

/**
 * UUIDs made of what identifies a population (laboratory, sample, season, species) and a test (the population, group,
 * actives, assay, rate; null where the group is not known), the same in every sheet; migration `intake` computes the same
 * in SQL.
 */
export function keysOf(r: JudgedRecord, laboratory: string): RecordKeys {
  if (!counts(r)) return NO_KEYS;
  const population = [laboratory, r.sample?.toUpperCase(), r.season, r.species].join(SEPARATOR);
  const test = [population, r.group, r.actives.join('+'), r.assay, r.rateMultiple ?? ''].join(SEPARATOR);
  return {
    populationKey: keyOfPopulation(population),
    testKey: r.group === null ? null : uuid(test),
    contentHash: contentHash(r),
  };
}

/** The rows of a population mostly stand together. */
function keyOfPopulation(text: string): string {
  if (text !== last.text) last = { text, key: uuid(text) };
  return last.key;
}

let last = { text: '', key: '' };

const NO_KEYS: RecordKeys = { populationKey: null, testKey: null, contentHash: null };
const SEPARATOR = '\u001f';

/** All that a record says of its test: two records of one test, run and replicate with the same hash are one row sent twice. */
function contentHash(r: JudgedRecord): string {
  return uuid(
    [
      ...[r.county, r.treated, r.alive, r.result, r.run, r.replicate, r.design, r.crop, r.funder, r.sender],
      ...[r.operation, r.publicShare, r.collected, r.datePrecision, r.received],
    ].join(SEPARATOR),
  );
}

/** MD5 as a UUID, as PostgreSQL writes one: names things, protects nothing. */
function uuid(text: string): string {
  const hex = hash('md5', text);
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
