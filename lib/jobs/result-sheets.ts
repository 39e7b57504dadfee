import type { StaffDatabase } from '@/db/clients/staff';
import { listCaseDefinitions } from '@/db/repositories/case-definitions';
import { resultSheetFacts } from '@/db/repositories/result-sheets';
import type { ResultSheet } from '@/lib/briefing/result-sheet/types';
import { programmeOf } from './programme-of';

/**
 * The result sheets of some samples, in the order of their numbers, with the definitions that their calls rest on and what
 * the programme says of itself. Samples that are not there are left out.
 */
export async function resultSheets(db: StaffDatabase, ids: readonly number[]): Promise<ResultSheet[]> {
  const programme = await programmeOf(db);
  const known = new Map((await listCaseDefinitions(db)).map((one) => [one.version, one]));
  return (await resultSheetFacts(db, ids)).map((facts) => {
    const versions = [...new Set(facts.tests.map(({ caseDefinition }) => caseDefinition))];
    return {
      ...facts,
      ...{ programme: programme.name, simulated: programme.simulated },
      ...{ contact: programme.contact, regulatedNotice: programme.regulatedNotice },
      definitions: versions.flatMap((version) => {
        const definition = known.get(version);
        return definition ? [{ version, words: definition.words }] : [];
      }),
    };
  });
}
