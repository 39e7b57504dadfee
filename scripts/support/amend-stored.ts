import type { StaffDatabase } from '@/db/clients';
import { type Amended, type Amendment, amendRecord } from '@/db/repositories/amend';
import { currentCaseDefinition } from '@/db/repositories/case-definitions';
import type { Rejudged } from '@/db/repositories/rejudge';
import { loadVocabulary } from '@/db/repositories/vocabulary';
import { atlasCounties } from '@/lib/geography/atlas';
import { createStoredJudge } from '@/lib/intake/judge-stored';
import { programmeOf } from '@/lib/jobs/programme-of';
import { today } from './options';

/** Records what a person says of a record, by this programme's region, vocabulary and case definition. */
export async function amendStored(db: StaffDatabase, amendment: Amendment): Promise<Amended> {
  const { states } = await programmeOf(db);
  await loadVocabulary(db);
  const definition = await currentCaseDefinition(db, today());
  const judge = createStoredJudge({ states, counties: atlasCounties(), definition });
  return amendRecord(db, amendment, { judge, definition });
}

/** What an amendment did, a line for each record. */
export function amendedLines({ record, alike }: Amended): string[] {
  return [record, ...alike].flatMap(linesOf);
}

function linesOf({ sheetId, record, outcome, result, reasons }: Rejudged): string[] {
  const head = `Import ${sheetId}, record ${record}: ${outcome}${result ? `, ${result}` : ''}`;
  return [
    head,
    ...reasons.map(({ column, reason, remedy, code }) => `  ${column}: ${reason} ${remedy} [${code}]`),
  ];
}
