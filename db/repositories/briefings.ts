import type { Sentence } from '@/lib/briefing/types';
import type { Eppo, Period } from '@/lib/vocabulary/terms';
import type { StaffDatabase } from '../clients/staff';
import { addHistory } from './history';

/** When a population came in and when its sender was told, as ISO days; null = not known, or not yet. Private. */
export interface Turnaround {
  population: string;
  received: string | null;
  reported: string | null;
}

/** The days of each population of a species in a run of seasons, by the id that its facts have. */
export async function readTurnaround(
  db: StaffDatabase,
  { species, window }: { species: Eppo; window: Period },
): Promise<Turnaround[]> {
  return db.$client<Turnaround[]>`
    select id::text as population, received, reported::text from surveillance.population
    where species = ${species} and season between ${window.first} and ${window.last}
    order by id`;
}

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
