import { UserError } from '@/db/errors';
import { applyCaseDefinition, listCaseDefinitions } from '@/db/repositories/case-definitions';
import { countTests } from '@/db/repositories/facts';
import type { Worker } from '../work';

/** Derives all results by another case definition, or says what that would change. All or nothing. */
export const rederive: Worker<'case-definition'> = async ({ db, request, by, tell }) => {
  const { version, store } = request;
  const definition = (await listCaseDefinitions(db)).find((one) => one.version === version);
  if (!definition)
    throw new UserError(`There is no case definition “${version}”.`, 'Choose one of the list.');
  const whole = await countTests(db);
  tell('Deriving results', 0, whole);
  return applyCaseDefinition(db, {
    ...{ definition, store, by },
    onTests: (done) => tell('Deriving results', Math.min(done, whole), whole),
  });
};
