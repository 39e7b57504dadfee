import { asc } from 'drizzle-orm';
import { type Additions, addToVocabulary, readAdditions } from '@/lib/vocabulary/additions';
import { jsonText } from '../bulk';
import type { StaffDatabase } from '../clients/staff';
import { UserError } from '../errors';
import { vocabularyAddition } from '../schema/surveillance';
import { addHistory } from './history';
import { lockImports } from './lock';

/** The sets of words that this programme added, in their order. */
export async function listVocabulary(db: StaffDatabase): Promise<Additions[]> {
  const rows = await db.select().from(vocabularyAddition).orderBy(asc(vocabularyAddition.id));
  return rows.map(({ additions }) => additions as Additions);
}

/** Makes the programme's words known to this process; every command that reads sheets or names begins with it. */
export async function loadVocabulary(db: StaffDatabase): Promise<void> {
  for (const additions of await listVocabulary(db)) addToVocabulary(additions);
}

/** Adds words for good. @throws UserError where they are not as they must be, or contradict what is known */
export async function addVocabulary(
  db: StaffDatabase,
  { additions, by }: { additions: unknown; by: string },
): Promise<void> {
  await loadVocabulary(db);
  const read = attempt(() => readAdditions(additions));
  attempt(() => addToVocabulary(read));
  await db.$client.begin(async (sql) => {
    await lockImports(sql);
    await sql`insert into surveillance.vocabulary_addition (additions) values (${jsonText(read)}::text::jsonb)`;
    await addHistory(sql, { by, what: 'vocabulary added', after: read });
  });
}

function attempt<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof RangeError)
      throw new UserError(error.message, 'Nothing was added: correct the file and send it again.');
    throw error;
  }
}
