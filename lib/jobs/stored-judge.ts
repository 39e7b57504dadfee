import type { StaffDatabase } from '@/db/clients/staff';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import type { JudgeStored } from '@/db/repositories/rejudge';
import { loadVocabulary } from '@/db/repositories/vocabulary';
import { atlasCounties } from '@/lib/geography/atlas';
import { createStoredJudge } from '@/lib/intake/judge-stored';
import type { CaseDefinition } from '@/lib/vocabulary/case-definition';
import { programmeOf } from './programme-of';

/**
 * What judges stored rows again, by this programme's region, vocabulary and case definition.
 *
 * @param day ISO day that counts as today
 * @throws UserError before there is a programme
 */
export async function storedJudge(
  db: StaffDatabase,
  day: string,
): Promise<{ judge: JudgeStored; definition: CaseDefinition }> {
  const { states } = await programmeOf(db);
  await loadVocabulary(db);
  const definition = await currentCaseDefinition(db, day);
  return { judge: createStoredJudge({ states, counties: atlasCounties(), definition }), definition };
}
