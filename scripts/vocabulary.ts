/**
 * `npm run vocabulary`: words, species and actives that this programme added to the vocabulary, each with its source.
 */
import { readFileSync } from 'node:fs';
import { UserError } from '@/db/errors';
import { addVocabulary, listVocabulary } from '@/db/repositories/vocabulary';
import { checkFile } from '@/lib/jobs/sheet-file';
import { UsageError } from './support/command';
import { actor, say, staffCommand } from './support/staff-command';

const USAGE = 'npm run vocabulary -- [list] | add FILE.json [--by NAME]';

await staffCommand(USAGE, { by: { type: 'string' } }, async (db, { values, words }) => {
  const [act = 'list', path] = words;
  if (act === 'add' && path !== undefined) {
    await checkFile(path);
    await addVocabulary(db, { additions: parsed(path), by: actor(values.by) });
    say(`The words of ${path} are part of the vocabulary.`);
  } else if (act !== 'list') throw new UsageError(`Usage: ${USAGE}`);
  const sets = await listVocabulary(db);
  say(sets.length === 0 ? 'Nothing was added to the vocabulary.' : JSON.stringify(sets, null, 1));
});

function parsed(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    throw new UserError(`${path} is no JSON: ${(error as Error).message}.`, 'Correct it and send it again.');
  }
}
