import { desc, eq } from 'drizzle-orm';
import type { Sql, TransactionSql } from 'postgres';
import type { Reason } from '@/lib/intake/judged';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import type { Outcome } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { sheet } from '../schema/intake';
import { updateFirstFinds } from './first-finds';
import { addHistory } from './history';
import { lockImports } from './lock';
import { rebuild } from './rebuild';
import { judgeRuns } from './runs';

/** A sheet that was imported; `undoneAt` is null while it stands. */
export type ImportedSheet = typeof sheet.$inferSelect;

/** All imports, newest first. */
export async function listImports(db: StaffDatabase): Promise<ImportedSheet[]> {
  return db.select().from(sheet).orderBy(desc(sheet.id));
}

/** One import, with the first release that was made from it, or null. */
export async function readImport(
  db: StaffDatabase,
  id: number,
): Promise<(ImportedSheet & { release: number | null }) | null> {
  const [found] = await db.select().from(sheet).where(eq(sheet.id, id));
  if (!found) return null;
  return { ...found, release: await firstReleaseOf(db.$client, id) };
}

/** A row of an import that does not count as it stands, with its main reason. */
export interface UncountedRow {
  record: number;
  line: number;
  outcome: Outcome;
  reason: Reason | null;
}

/** Rows of an import that were refused, or are in question, after a row, in their order. */
export async function uncountedRows(
  db: StaffDatabase,
  { sheetId, after, limit }: { sheetId: number; after: number; limit: number },
): Promise<UncountedRow[]> {
  return db.$client<UncountedRow[]>`
    select record, line, outcome, reasons->0 as reason from intake.record
    where sheet_id = ${sheetId} and record > ${after} and outcome <> 'accepted'
    order by record limit ${limit}`;
}

/** Records that are taken out at a time. */
const STEP = 20_000;

/**
 * Undoes an import as a whole: its rows stay and count no longer, what it brought is gone from the results, and its file
 * may be imported again.
 *
 * @param order.onRows told how many rows were taken out so far
 * @throws UserError as `refuseUndo`
 */
export async function undoImport(
  db: StaffDatabase,
  order: {
    sheetId: number;
    definition: CaseDefinition;
    by: string;
    why: string;
    onRows?: (rows: number) => void;
  },
): Promise<void> {
  const { sheetId, definition, by, why, onRows = () => {} } = order;
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    await refuseUndo(sql, sheetId);
    let taken = 0;
    for (let first = 1; ; first += STEP) {
      const rows = await sql<{ population: string | null; test: string | null }[]>`
        update intake.record set standing = false where sheet_id = ${sheetId} and record between ${first} and ${first + STEP - 1}
        returning population_key as population, test_key as test`;
      if (rows.count === 0) break;
      await rebuild(
        sql,
        { populations: distinct(rows, 'population'), tests: distinct(rows, 'test') },
        definition,
      );
      taken += rows.count;
      onRows(taken);
    }
    const tests = await judgeRuns(sql, { sheetId });
    await rebuild(sql, { populations: [], tests }, definition);
    await updateFirstFinds(sql);
    await sql`update intake.question set closed_at = now() where sheet_id = ${sheetId} and closed_at is null`;
    await sql`update intake.sheet set undone_at = now() where id = ${sheetId}`;
    await addHistory(sql, { by, why, what: 'import undone', sheetId });
  });
}

/**
 * Refuses what cannot be undone.
 *
 * @throws UserError where there is no such import, it was undone before, or a release was made from it: then its rows
 *   can only be corrected
 */
export async function refuseUndo(sql: Sql | TransactionSql, sheetId: number): Promise<void> {
  const [found] = await sql<{ undone: boolean }[]>`
    select undone_at is not null as undone from intake.sheet where id = ${sheetId}`;
  if (!found) throw new UserError(`There is no import ${sheetId}.`, 'npm run sheets lists them.');
  if (found.undone)
    throw new UserError(`Import ${sheetId} was undone before.`, 'npm run sheets lists those that stand.');
  const release = await firstReleaseOf(sql, sheetId);
  if (release !== null) {
    throw new UserError(
      `Import ${sheetId} is in release ${release}, so it cannot be undone.`,
      'Correct its rows, or take them back: later releases then differ.',
    );
  }
}

/** The first release that was made from an import, or null. */
async function firstReleaseOf(sql: Sql | TransactionSql, sheetId: number): Promise<number | null> {
  const [first] = await sql<{ release: number | null }[]>`
    select min(release) as release from surveillance.release_sheet where sheet_id = ${sheetId}`;
  return first!.release;
}

function distinct<K extends string>(rows: readonly Record<K, string | null>[], key: K): string[] {
  return [...new Set(rows.flatMap((row) => row[key] ?? []))];
}
