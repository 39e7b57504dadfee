import type { TransactionSql } from 'postgres';
import type { Judged } from '@/lib/intake/judged';
import type { Assay, Eppo, Group, Result } from '@/lib/vocabulary/terms';
import type { TestKind } from '../schema/surveillance';

/** One record of a test: the plants of one replicate of one run, or what the sheet states of them. Private. */
export interface StoredTray {
  key: string;
  populationId: number;
  species: Eppo;
  sheetId: number;
  record: number;
  laboratory: string;
  kind: TestKind;
  group: Group;
  actives: string[];
  assay: Assay;
  rateMultiple: number | null;
  run: string | null;
  replicate: string | null;
  treated: number | null;
  alive: number | null;
  /** As judged row by row. */
  result: Result | null;
  details: Judged['details'];
  /** False where the checks of its run misbehaved. */
  runValid: boolean;
  /** True where a person let the pooled result stand although its runs differ. */
  overruled: boolean;
}

/**
 * The records of some tests, by test; a test without a standing record is not among them. Records are found by their
 * population, which is that of the stored test.
 *
 * @param populations keys of the populations of tests that may not be stored yet
 */
export async function readTrays(
  sql: TransactionSql,
  keys: readonly string[],
  populations: readonly string[] = [],
): Promise<StoredTray[][]> {
  const rows = await sql<StoredTray[]>`
    select r.test_key as key, p.id as "populationId", p.species, r.sheet_id as "sheetId", r.record, s.laboratory, r.kind,
      r.group_number as "group", r.actives, r.assay, r.rate_multiple as "rateMultiple", r.run, r.replicate, r.treated,
      r.alive, r.result, r.details, coalesce(run.valid, true) as "runValid",
      exists (select from intake.amendment a where a.sheet_id = r.sheet_id and a.record = r.record
        and a.answer = '{"kind": "stands", "code": "RUNS_DIFFER"}'::jsonb) as overruled
    from (
      select key, population_id as id from surveillance.test where key = any(${keys as string[]})
      union select r.test_key, p.id
      from surveillance.population p join intake.record r on r.population_key = p.key
      where p.key = any(${populations as string[]}) and r.standing and r.kind is not null and r.test_key = any(${keys as string[]})
    ) own
    join surveillance.population p on p.id = own.id
    join intake.record r on r.population_key = p.key and r.test_key = own.key
    join intake.sheet s on s.id = r.sheet_id
    left join surveillance.run run on run.laboratory = s.laboratory and run.name = r.run
    where r.standing and r.kind is not null
    order by r.test_key, r.sheet_id, r.record`;
  return grouped(rows);
}

/** The records of all tests, those of 5,000 at a time. */
export async function* allTrays(sql: TransactionSql): AsyncGenerator<StoredTray[][]> {
  for (let last: string | null = null; ; ) {
    const page: { key: string }[] = await sql<{ key: string }[]>`
      select key from surveillance.test where ${last}::uuid is null or key > ${last}::uuid order by key limit 5000`;
    if (page.length === 0) return;
    yield await readTrays(
      sql,
      page.map(({ key }) => key),
    );
    last = page.at(-1)!.key;
  }
}

/** Runs of rows with one key. */
function grouped(rows: readonly StoredTray[]): StoredTray[][] {
  const groups: StoredTray[][] = [];
  for (const row of rows) {
    if (groups.at(-1)?.[0]?.key === row.key) groups.at(-1)!.push(row);
    else groups.push([row]);
  }
  return groups;
}
