import { hash } from 'node:crypto';
import type { JudgedRecord } from './sheets';

/** What a record belongs to: UUIDs made of what identifies a population and a test, the same in every sheet. */
export interface Keys {
  /** Of laboratory, sample, season and species. */
  population: string;
  /** Of the population, group, actives, assay and rate; null where the group is not known. */
  test: string | null;
}

/** The keys of a record that counts; migration `intake` computes the same in SQL. */
export function keysOf(laboratory: string, r: JudgedRecord): Keys {
  const population = [laboratory, r.sample?.toUpperCase(), r.season, r.species];
  const test = [...population, r.group, r.actives.join('+'), r.assay, r.rateMultiple ?? ''];
  return { population: uuid(population), test: r.group === null ? null : uuid(test) };
}

/** All that a record says of its test: two records of one test, run and replicate with the same hash are one row sent twice. */
export function contentHash(r: JudgedRecord): string {
  return uuid([
    ...[r.county, r.treated, r.alive, r.result, r.run, r.replicate, r.design, r.crop, r.funder, r.sender],
    ...[r.operation, r.publicShare, r.collected, r.datePrecision, r.received],
  ]);
}

/** MD5 as a UUID, as PostgreSQL writes one: names things, protects nothing. */
function uuid(parts: readonly unknown[]): string {
  const hex = hash('md5', parts.join('\u001f'));
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
