import type { TransactionSql } from 'postgres';
import { type CheckTray, judgeRun } from '@/lib/intake/confirmation/judge-run';
import { insertRows } from '../bulk';

/**
 * Judges the runs that a sheet names by the check rows that stand, its own and those of other sheets of the laboratory. A
 * run whose rows say that its checks are rows of their own, and that has none, does not count.
 *
 * @returns keys of the tests whose run counts otherwise than before
 */
export async function judgeRuns(sql: TransactionSql, { sheetId }: { sheetId: number }): Promise<string[]> {
  const runs = await sql<{ laboratory: string; name: string; valid: boolean | null; expected: boolean }[]>`
    select s.laboratory, r.run as name, run.valid,
      bool_or(r.standing and 'CHECK_BY_RUN' = any(r.flags)) as expected
    from intake.record r
    join intake.sheet s on s.id = r.sheet_id
    left join surveillance.run run on run.laboratory = s.laboratory and run.name = r.run
    where r.sheet_id = ${sheetId} and r.run is not null
      and (r.kind = 'check' or 'CHECK_BY_RUN' = any(r.flags) or run.name is not null)
    group by 1, 2, 3 order by 1, 2`;
  if (runs.length === 0) return [];
  const [laboratory] = runs.map((run) => run.laboratory);
  const checks = await checkTrays(
    sql,
    laboratory!,
    runs.map(({ name }) => name),
  );
  const judged = runs.map(({ name, valid, expected }) => {
    const trays = checks.filter((tray) => tray.run === name);
    const now = trays.length > 0 ? judgeRun(trays) : expected ? NO_CHECK : null;
    return { name, before: valid ?? true, now };
  });
  const listed = judged.flatMap(({ name, now }) => (now ? [{ laboratory, name, ...now }] : []));
  await insertRows(sql, 'surveillance.run', ['laboratory', 'name', 'valid', 'why'], listed, REPLACE);
  const gone = judged.flatMap(({ name, now }) => (now ? [] : [name]));
  await sql`delete from surveillance.run where laboratory = ${laboratory!} and name = any(${gone})`;
  const changed = judged.filter(({ before, now }) => (now?.valid ?? true) !== before).map(({ name }) => name);
  if (changed.length === 0) return [];
  const tests = await sql<{ key: string }[]>`
    select distinct r.test_key as key from intake.record r join intake.sheet s on s.id = r.sheet_id
    where s.laboratory = ${laboratory!} and r.run = any(${changed}) and r.test_key is not null`;
  return tests.map(({ key }) => key);
}

const NO_CHECK = { valid: false, why: 'no check row was sent with the run' };
const REPLACE = 'on conflict (laboratory, name) do update set valid = excluded.valid, why = excluded.why';

async function checkTrays(
  sql: TransactionSql,
  laboratory: string,
  names: readonly string[],
): Promise<(CheckTray & { run: string })[]> {
  return sql<(CheckTray & { run: string })[]>`
    select r.run, r.details->>'check' as check, r.rate_multiple as "rateMultiple", r.treated, r.alive
    from intake.record r join intake.sheet s on s.id = r.sheet_id
    where s.laboratory = ${laboratory} and r.run = any(${names as string[]}) and r.kind = 'check' and r.standing
      and r.treated is not null and r.alive is not null`;
}

/** A run whose checks were looked at. */
export interface Run {
  laboratory: string;
  name: string;
  valid: boolean;
  why: string;
}

/** All runs with checks of their own, void ones first. */
export async function listRuns(sql: { unsafe: TransactionSql['unsafe'] }): Promise<Run[]> {
  return sql.unsafe<Run[]>(
    'select laboratory, name, valid, why from surveillance.run order by valid, laboratory, name',
  );
}
