/**
 * `npm run definition`: case definitions. Deriving the results by another one shows first what would change.
 */
import { createWriteStream, readFileSync } from 'node:fs';
import { stringify } from 'csv-stringify';
import type { StaffDatabase } from '@/db/clients';
import { UserError } from '@/db/errors';
import {
  addCaseDefinition,
  applyCaseDefinition,
  currentCaseDefinition,
  listCaseDefinitions,
  type ResultChange,
} from '@/db/repositories/case-definitions';
import { checkFile } from '@/lib/jobs/sheet-file';
import { CASE_DEFINITION, type CaseDefinition } from '@/lib/vocabulary/case-definition';
import { UsageError } from './support/command';
import { today } from './support/options';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = `npm run definition -- [list]
       npm run definition -- apply VERSION [--store] [--changes FILE.csv] [--by NAME]   (without --store it only shows)
       npm run definition -- add FILE.json`;

await staffCommand(
  USAGE,
  {
    store: { type: 'boolean' },
    changes: { type: 'string' },
    by: { type: 'string' },
  },
  async (db, { values, words }) => {
    const [act = 'list', word] = words;
    if (act === 'list') return list(db);
    if (word === undefined || words.length > 2) throw new UsageError(`Usage: ${USAGE}`);
    if (act === 'add') return add(db, word);
    if (act !== 'apply') throw new UsageError(`Usage: ${USAGE}`);
    const definition = await definitionOf(db, word);
    const changes = values.changes === undefined ? null : changesFile(values.changes);
    const store = values.store ?? false;
    const { tests, moves } = await applyCaseDefinition(db, {
      definition,
      store,
      by: actor(values.by),
      onChange: (change) => changes?.write(change),
    });
    changes?.end();
    say(definition.words);
    for (const { before, after, tests: count } of moves)
      say(`  ${before ?? 'no result'} → ${after ?? 'no result'}: ${count} tests`);
    const changed = moves.reduce((sum, move) => sum + move.tests, 0);
    say(
      `${changed} of ${tests} tests ${store ? 'changed' : 'would change; nothing was stored (--store does it)'}.`,
    );
  },
);

async function list(db: StaffDatabase): Promise<void> {
  const current = await currentCaseDefinition(db, today());
  for (const { version, words, source } of await listCaseDefinitions(db)) {
    say(`${version === current.version ? '*' : ' '} ${version}: ${words}\n    ${source}`);
  }
}

async function add(db: StaffDatabase, path: string): Promise<void> {
  await checkFile(path);
  const read = CASE_DEFINITION.safeParse(parsed(path));
  if (!read.success) {
    const [issue] = read.error.issues;
    throw new UserError(
      `${path}, ${issue!.path.join('.') || 'the file'}: ${issue!.message}.`,
      'Correct it and send it again.',
    );
  }
  await addCaseDefinition(db, read.data);
  say(`The case definition ${read.data.version} can be applied now.`);
}

function parsed(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    throw new UserError(`${path} is no JSON: ${(error as Error).message}.`, 'Correct it and send it again.');
  }
}

async function definitionOf(db: StaffDatabase, version: string): Promise<CaseDefinition> {
  const all = await listCaseDefinitions(db);
  const definition = all.find((one) => one.version === version);
  if (definition) return definition;
  throw new UserError(
    `There is no case definition “${version}”.`,
    `There are: ${all.map((one) => one.version).join(', ')}.`,
  );
}

/** A CSV of the tests whose result changes. */
function changesFile(path: string): { write(change: ResultChange): void; end(): void } {
  const rows = stringify({ header: true, escape_formulas: true });
  rows.pipe(createWriteStream(path));
  return { write: (change) => void rows.write(change), end: () => void rows.end() };
}
