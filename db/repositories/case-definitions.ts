import type { TransactionSql } from 'postgres';
import { CASE_DEFINITIONS, type CaseDefinition, caseDefinitionOn } from '@/lib/vocabulary/case-definition';
import type { Result } from '@/lib/vocabulary/terms';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { caseDefinition } from '../schema/surveillance';
import { type DerivedTest, deriveTest } from './derive-test';
import { updateFirstFinds } from './first-finds';
import { addHistory } from './history';
import { lockImports } from './lock';
import { getProgramme } from './programme';
import { writeTests } from './rebuild';
import { allTrays } from './trays';

/** All case definitions that can be chosen: those of the project, and those that the programme brought. */
export async function listCaseDefinitions(db: StaffDatabase): Promise<CaseDefinition[]> {
  const own = await db.select().from(caseDefinition);
  return [...CASE_DEFINITIONS, ...own.map(({ definition }) => definition)];
}

/** The definition by which results are derived: the one that the programme chose, else the one in force on a day. */
export async function currentCaseDefinition(db: StaffDatabase, day: string): Promise<CaseDefinition> {
  const chosen = (await getProgramme(db))?.caseDefinition ?? null;
  if (chosen === null) return caseDefinitionOn(day);
  return (await listCaseDefinitions(db)).find(({ version }) => version === chosen)!;
}

/** Adds a definition of the programme's own. @throws UserError where its version is taken */
export async function addCaseDefinition(db: StaffDatabase, definition: CaseDefinition): Promise<void> {
  const taken = (await listCaseDefinitions(db)).some(({ version }) => version === definition.version);
  if (taken)
    throw new UserError(
      `There is a case definition ${definition.version} already.`,
      'Give it another version: a definition never changes.',
    );
  await db.insert(caseDefinition).values({ version: definition.version, definition });
}

/** A test that a definition would call otherwise. */
export interface ResultChange {
  species: string;
  group: number;
  season: number;
  county: string;
  laboratory: string;
  sample: string;
  rateMultiple: number | null;
  treated: number | null;
  alive: number | null;
  before: Result | null;
  after: Result | null;
}

/** What deriving all results by a definition does. */
export interface Rederived {
  tests: number;
  /** How many tests go from which result to which. */
  moves: { before: Result | null; after: Result | null; tests: number }[];
}

/**
 * Derives all results anew by a definition, from the plants that are stored. Told of each test whose result changes.
 *
 * @param store false: nothing is stored, it only shows what would change
 */
export async function applyCaseDefinition(
  db: StaffDatabase,
  order: {
    definition: CaseDefinition;
    store: boolean;
    by: string;
    onChange?: (change: ResultChange) => void;
    /** Told how many tests were derived so far. */
    onTests?: (tests: number) => void;
  },
): Promise<Rederived> {
  const { definition, store, by, onChange, onTests } = order;
  return db.$client.begin(async (sql) => {
    await lockImports(sql);
    const moves = new Map<string, Rederived['moves'][number]>();
    let tests = 0;
    for await (const groups of allTrays(sql)) {
      const derived = groups.map((trays) => deriveTest(trays, definition));
      tests += derived.length;
      for (const change of await changes(sql, derived)) {
        onChange?.(change);
        const { before, after } = change;
        const move = moves.get(`${before}|${after}`) ?? { before, after, tests: 0 };
        moves.set(`${before}|${after}`, { ...move, tests: move.tests + 1 });
      }
      if (store) await writeTests(sql, derived);
      onTests?.(tests);
    }
    const result = { tests, moves: [...moves.values()] };
    if (!store) return result;
    await sql`update surveillance.programme set case_definition = ${definition.version}`;
    await updateFirstFinds(sql);
    await addHistory(sql, {
      by,
      what: 'case definition applied',
      after: { version: definition.version, ...result },
    });
    return result;
  });
}

async function changes(sql: TransactionSql, derived: readonly DerivedTest[]): Promise<ResultChange[]> {
  const now = derived.map(({ row }) => ({ key: row.key, result: row.result }));
  return sql<ResultChange[]>`
    select p.species, t.group_number as "group", p.season, p.county, p.laboratory, p.sample,
      t.rate_multiple as "rateMultiple", t.treated, t.alive, t.result as before, n.result as after
    from json_to_recordset(${jsonText(now)}::text::json) as n (key uuid, result text)
    join surveillance.test t on t.key = n.key and t.result is distinct from n.result
    join surveillance.population p on p.id = t.population_id`;
}
