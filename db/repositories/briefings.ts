import type { Sentence } from '@/lib/briefing/types';
import type { StaffDatabase } from '../clients/staff';
import { addHistory } from './history';

/** What a person put in place of computed headlines, in which document. */
export interface Wording {
  by: string;
  /** Title and source of the briefing. */
  about: string;
  /** The edited sentences alone. */
  sentences: readonly Sentence[];
}

/** Writes down which sentences of a briefing a person worded: what was computed, and what was printed. */
export async function recordWording(db: StaffDatabase, { by, about, sentences }: Wording): Promise<void> {
  const told = (which: 'computed' | 'printed') =>
    Object.fromEntries(sentences.map((sentence) => [sentence.key, sentence[which]]));
  await db.$client.begin((sql) =>
    addHistory(sql, {
      ...{ by, why: about, what: 'briefing worded' },
      ...{ before: told('computed'), after: told('printed') },
    }),
  );
}
