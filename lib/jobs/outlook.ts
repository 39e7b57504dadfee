import type { StaffDatabase } from '@/db/clients/staff';
import type { KnownPopulation } from '@/db/repositories/facts';
import { lastReleaseNumber } from '@/db/repositories/releases';
import type { Fact } from '@/lib/cube/types';
import { waitingFor } from '@/lib/release/build';
import type { Waiting } from '@/lib/release/revision';
import { sameFacts } from '@/lib/release/revision';
import { prepareRelease } from './make-release';
import { programmeOf } from './programme-of';
import { today } from './today';

/** What becomes of a record's population in the next release, as it stands. Private. */
export type Outlook =
  /** No release has been made, or the season is not closed: there is nothing that it could be compared with. */
  | { kind: 'open' }
  /** The last release has it so. */
  | { kind: 'as released' }
  | { kind: 'enters' }
  /** Some or all of it, by group. */
  | { kind: 'waits'; waiting: Waiting[] };

/**
 * Says at once whether what a person settled of a population enters the next release or waits, by the batch rule: for the
 * populations of its weed alone, since no other weed's cells change. The audit at the release may let more wait.
 *
 * @param population of the record, as it was before where the record was taken back; null: of none (a question, a check)
 * @cost reads the weed's results and what releases were made of it
 */
export async function outlookOf(db: StaffDatabase, population: KnownPopulation | null): Promise<Outlook> {
  if (!population || (await lastReleaseNumber(db)) === 0) return { kind: 'open' };
  const order = { programme: await programmeOf(db), date: today(), note: '' };
  const { input } = await prepareRelease(db, order, population.species);
  const last = input.past?.at(-1);
  if (!last) return { kind: 'open' };
  const own = (facts: readonly Fact[]) =>
    facts.filter((fact) => fact.population === population.id || fact.population === population.key);
  const now = input.facts.filter(({ publicShare }) => publicShare);
  if (sameFacts(own(last.facts), own(now))) return { kind: 'as released' };
  const { closedSeasons, openSeason } = last.cube;
  if (![...closedSeasons, openSeason].includes(population.season)) return { kind: 'open' };
  const waiting = waitingFor(input).filter(
    ({ county, season }) => county === population.county && season === population.season,
  );
  return waiting.length > 0 ? { kind: 'waits', waiting } : { kind: 'enters' };
}
