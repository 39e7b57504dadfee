import type { PendingQuery, Row, Sql } from 'postgres';
import type { Assay, Design, Eppo, Fips, Group, Result, Season } from '@/lib/vocabulary/terms';
import type { TestKind } from '../../schema/surveillance';

/** Which results are looked at; what is left out does not restrict. */
export interface ResultFilter {
  species?: Eppo;
  group?: Group;
  /** ISO common name; a mixture is found by each of its actives. */
  active?: string;
  /** Seasons from … to, both included. */
  first?: Season;
  last?: Season;
  /** Two-digit FIPS code. */
  stateFips?: string;
  county?: Fips;
  kind?: TestKind;
  result?: Result;
  laboratory?: string;
  /** An import: its rows, in their order. */
  sheetId?: number;
  design?: Design;
  assay?: Assay;
  crop?: string;
  funder?: string;
  /** How the sample's number begins, in any case. */
  sample?: string;
}

type Fragment = PendingQuery<Row[]>;

/** Restrictions on the population `p`; its species is left to who knows whether that of the test leads further. */
export function populationConditions(sql: Sql, filter: ResultFilter): Fragment[] {
  const { county, stateFips, first, last, laboratory, design, crop, funder, sample } = filter;
  const is = (column: string, value: string | undefined) =>
    value === undefined ? [] : [sql`p.${sql(column)} = ${value}`];
  return [
    ...is('county', county),
    ...(stateFips === undefined ? [] : [sql`p.county >= ${stateFips} and p.county < ${`${stateFips}:`}`]),
    ...(first === undefined ? [] : [sql`p.season >= ${first}`]),
    ...(last === undefined ? [] : [sql`p.season <= ${last}`]),
    ...is('laboratory', laboratory),
    ...is('design', design),
    ...is('crop', crop),
    ...is('funder', funder),
    ...(sample ? [sampleBegins(sql, sample)] : []),
  ];
}

/** Restrictions on the test `t`. What it showed, or why it showed nothing, is looked up by the words of an index. */
export function testConditions(sql: Sql, { group, active, kind, result, assay }: ResultFilter): Fragment[] {
  const shown = (what: string) => sql`coalesce(t.result, t.kind) = ${what}`;
  return [
    ...(group === undefined ? [] : [sql`t.group_number = ${group}`]),
    ...(active === undefined ? [] : [sql`${active} = any(t.actives)`]),
    ...(kind === undefined ? [] : [kind === 'tested' ? sql`t.kind = ${kind}` : shown(kind)]),
    ...(result === undefined ? [] : [shown(result)]),
    ...(assay === undefined ? [] : [sql`t.assay = ${assay}`]),
  ];
}

/** All of them; true where there is none. */
export function all(sql: Sql, conditions: readonly Fragment[]): Fragment {
  return conditions.reduce((both, condition) => sql`${both} and ${condition}`, sql`true`);
}

/** A range of the index over sample numbers, which sorts by bytes. */
function sampleBegins(sql: Sql, sample: string): Fragment {
  const begin = sample.trim();
  return sql`(upper(p.sample) collate "C") >= upper(${begin}) and (upper(p.sample) collate "C") < upper(${begin}) || ${LAST}`;
}

/** The highest code point. */
const LAST = '\u{10ffff}';
