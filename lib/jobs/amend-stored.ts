import type { StaffDatabase } from '@/db/clients/staff';
import { type Amended, type Amendment, amendRecord } from '@/db/repositories/amend';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import { loadVocabulary } from '@/db/repositories/vocabulary';
import { atlasCounties } from '@/lib/geography/atlas';
import { createStoredJudge } from '@/lib/intake/judge-stored';
import { programmeOf } from './programme-of';
import { today } from './today';

/** Records what a person says of a record, by this programme's region, vocabulary and case definition. */
export async function amendStored(db: StaffDatabase, amendment: Amendment): Promise<Amended> {
  const { states } = await programmeOf(db);
  await loadVocabulary(db);
  const definition = await currentCaseDefinition(db, today());
  const judge = createStoredJudge({ states, counties: atlasCounties(), definition });
  return amendRecord(db, amendment, { judge, definition });
}
