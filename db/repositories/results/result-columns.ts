import type { PendingQuery, Row, Sql } from 'postgres';
import type { Assay, Design, Eppo, Fips, Group, Result, Season } from '@/lib/vocabulary/terms';
import type { TestKind } from '../../schema/surveillance';

/** One result: a test with its population. Private. */
export interface ResultRow {
  /** Key of the test. */
  key: string;
  population: number;
  /** The row from which it has what is said once; of a filter by sheet, the row of that sheet. */
  sheetId: number;
  record: number;
  sample: string;
  season: Season;
  species: Eppo;
  county: Fips;
  group: Group;
  actives: string[];
  assay: Assay;
  rateMultiple: number | null;
  treated: number | null;
  alive: number | null;
  kind: TestKind;
  /** Null exactly where `kind` is not `tested`. */
  result: Result | null;
  /** True while its runs contradict each other. */
  contradictory: boolean;
  design: Design;
  laboratory: string;
  operation: string | null;
  sender: string | null;
  crop: string | null;
  funder: string | null;
  collected: string | null;
  received: string | null;
  /** ISO day. */
  reported: string | null;
  publicShare: boolean;
}

/** What is read of a test `t` and its population `p`; which row it is comes besides. */
export function resultColumns(sql: Sql): PendingQuery<Row[]> {
  return sql`t.key, p.id as population, p.sample, p.season, p.species, p.county, t.group_number as "group", t.actives,
    t.assay, t.rate_multiple as "rateMultiple", t.treated, t.alive, t.kind, t.result, t.contradictory, p.design,
    p.laboratory, p.operation, p.sender, p.crop, p.funder, p.collected, p.received, p.reported::text as reported,
    p.public_share as "publicShare"`;
}
