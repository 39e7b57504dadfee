import { createHash } from 'node:crypto';
import type { JudgedRecord } from './sheets';

/** What identifies a record's content: two sheets that say the same about the same have the same key and hash. */
export interface Content {
  /** What it is about: laboratory, sample, season, species, group, actives, assay, rate. */
  key: string;
  /** All that it says of it. */
  hash: string;
}

/**
 * Key and hash of a record, for finding it again in another sheet: same key and same hash = the same row sent twice,
 * same key and another hash = two accounts of one screening. 32 hexadecimal digits each (SHA-256, cut).
 */
export function contentOf(laboratory: string, r: JudgedRecord): Content {
  const about = [laboratory, r.sample, r.season, r.species, r.group, r.actives, r.assay, r.rateMultiple];
  const says = [r.county, r.treated, r.alive, r.result, r.design, r.crop, r.funder, r.sender, r.operation];
  const says2 = [r.publicShare, r.collected, r.datePrecision, r.received];
  return { key: digest(about), hash: digest([about, says, says2]) };
}

function digest(parts: readonly unknown[]): string {
  return createHash('sha256').update(JSON.stringify(parts)).digest('hex').slice(0, 32);
}
