import type { TransactionSql } from 'postgres';
import type { Fact } from '@/lib/cube/types';
import type { PlaceTree } from '@/lib/disclosure/places';
import type { Waiting } from '@/lib/release/revision/types';
import type { Eppo } from '@/lib/vocabulary/terms';
import { insertRows, jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';

/** What a release was made of. Private. */
export interface ReleaseBasis {
  /** With consent only, as they enter. */
  facts: readonly Fact[];
  places: PlaceTree;
  waiting: readonly Waiting[];
}

/**
 * What each release was made of, by its number. A release from before this was kept is not in it. Facts that stand in
 * several releases are the same objects.
 *
 * @param species of this weed alone
 */
export async function releaseBases(
  db: StaffDatabase,
  species: Eppo | null = null,
): Promise<Map<number, ReleaseBasis>> {
  const sql = db.$client;
  const heads = await sql<{ release: number; places: PlaceTree; waiting: Waiting[] }[]>`
    select release, places, waiting from surveillance.release_basis order by release`;
  const rows: (Standing & { fact: Fact })[] = [];
  for await (const batch of sql<FactRow[]>`
    select coalesce(p.id::text, f.population::text) as population, f.group_number as "group", f.assay, f.entered, f.left,
      f.county, f.season, f.species, f.design, f.operation, f.result, f.actives, f.crop, f.by_active as "byActive"
    from surveillance.released_fact f left join surveillance.population p on p.key = f.population
    where ${species}::text is null or f.species = ${species}
    order by f.population, f.group_number, f.assay, f.entered`.cursor(20_000)) {
    for (const { entered, left, byActive, ...own } of batch) {
      const fact = { ...own, ...(byActive && { byActive }), funder: null, publicShare: true };
      rows.push({ entered, left, fact });
    }
  }
  return new Map(
    heads.map(({ release, places, waiting }) => {
      const facts = rows
        .filter(({ entered, left }) => entered <= release && (left === null || left > release))
        .map(({ fact }) => fact);
      return [release, { facts, places, waiting }];
    }),
  );
}

type FactRow = Omit<Fact, 'funder' | 'publicShare' | 'byActive'> &
  Standing & { byActive: NonNullable<Fact['byActive']> | null };

interface Standing {
  entered: number;
  left: number | null;
}

/** Keeps what a release is made of, in the transaction that stores it: only what differs from the one before is written. */
export async function saveBasis(
  sql: TransactionSql,
  release: number,
  { facts, places, waiting }: ReleaseBasis,
): Promise<void> {
  await sql`
    insert into surveillance.release_basis (release, places, waiting)
    values (${release}, ${jsonText(places)}::text::jsonb, ${jsonText(waiting)}::text::jsonb)`;
  const keys = new Map<string, string>();
  for await (const batch of sql<
    { id: string; key: string }[]
  >`select id::text, key from surveillance.population`.cursor(50_000))
    for (const { id, key } of batch) keys.set(id, key);
  const next = new Map<string, ReturnType<typeof rowOf>>(
    facts.map((fact) => {
      const row = rowOf(fact, keys.get(fact.population) ?? fact.population);
      return [`${row.population}|${row.group_number}|${row.assay}`, row] as const;
    }),
  );
  const gone: object[] = [];
  for await (const batch of sql<ReturnType<typeof rowOf>[]>`
    select population, group_number, assay, county, season, species, design, operation, result, actives, crop,
      by_active
    from surveillance.released_fact where "left" is null`.cursor(20_000)) {
    for (const row of batch) {
      const key = `${row.population}|${row.group_number}|${row.assay}`;
      const after = next.get(key);
      if (after && JSON.stringify(after) === JSON.stringify(row)) next.delete(key);
      else gone.push({ population: row.population, group_number: row.group_number, assay: row.assay });
    }
  }
  if (gone.length > 0)
    await sql`
      update surveillance.released_fact f set "left" = ${release}
      from json_populate_recordset(null::surveillance.released_fact, ${jsonText(gone)}::text::json) g
      where f.population = g.population and f.group_number = g.group_number and f.assay = g.assay and f.left is null`;
  await insertRows(
    sql,
    'surveillance.released_fact',
    FACT,
    [...next.values()].map((row) => ({ ...row, entered: release })),
  );
}

const FACT = [
  ...['population', 'group_number', 'assay', 'entered', 'county', 'season', 'species', 'design', 'operation'],
  ...['result', 'actives', 'crop', 'by_active'],
];

function rowOf(
  { group, assay, county, season, species, design, operation, result, actives, crop, byActive }: Fact,
  key: string,
) {
  return {
    ...{ population: key, group_number: group, assay, county, season, species, design, operation },
    ...{ result: result as string, actives, crop, by_active: byActive ?? null },
  };
}
