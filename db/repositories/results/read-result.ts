import type { StaffDatabase } from '../../clients/staff';
import { isUuid } from '../../is-uuid';
import { type ResultRow, resultColumns } from './result-columns';

/** One record of a test. */
export interface ResultTray {
  sheetId: number;
  fileName: string;
  record: number;
  run: string | null;
  replicate: string | null;
  treated: number | null;
  alive: number | null;
  /** By itself. */
  result: string | null;
  kind: string;
  /** Null where its run has no checks of its own. */
  runValid: boolean | null;
  runWhy: string | null;
}

/** A result with the records that it is made of, or null where there is none of this key. */
export async function readResult(
  db: StaffDatabase,
  key: string,
): Promise<{ result: ResultRow; trays: ResultTray[] } | null> {
  if (!isUuid(key)) return null;
  const sql = db.$client;
  const [result] = await sql<ResultRow[]>`
    select ${resultColumns(sql)}, t.sheet_id as "sheetId", t.record
    from surveillance.test t join surveillance.population p on p.id = t.population_id
    where t.key = ${key}::uuid`;
  if (!result) return null;
  const trays = await sql<ResultTray[]>`
    select r.sheet_id as "sheetId", s.file_name as "fileName", r.record, r.run, r.replicate, r.treated, r.alive, r.result,
      r.kind, run.valid as "runValid", run.why as "runWhy"
    from surveillance.population p
    join intake.record r on r.population_key = p.key
    join intake.sheet s on s.id = r.sheet_id
    left join surveillance.run run on run.laboratory = s.laboratory and run.name = r.run
    where p.id = ${result.population} and r.test_key = ${key}::uuid and r.standing and r.kind is not null
    order by r.sheet_id, r.record`;
  return { result, trays: [...trays] };
}
