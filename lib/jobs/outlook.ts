import type { StaffDatabase } from '@/db/clients/staff';
import type { KnownPopulation } from '@/db/repositories/facts';
import { lastReleaseNumber } from '@/db/repositories/releases';
import type { Fact } from '@/lib/cube/types';
import { waitingFor } from '@/lib/release/build';
import { sameFacts } from '@/lib/release/revision/same-fact';
import type { Waiting } from '@/lib/release/revision/types';
import type { Eppo, Group } from '@/lib/vocabulary/terms';
import { prepareRelease } from './make-release';
import { programmeOf } from './programme-of';
import { today } from './today';

/** What becomes of populations in the next release, as it stands: how many of them. Private. */
export interface Outlook {
  /** No release has told of their season: there is nothing that they could be compared with. */
  open: number;
  /** The last release has them so. */
  asReleased: number;
  enters: number;
  /** Some or all of each, by group. */
  waits: number;
  /** Why those wait. */
  waiting: Waiting[];
}

/**
 * Says at once whether what a person settled of populations enters the next release or waits, by the batch rule: for the
 * populations of their weeds alone, since no other weed's cells change. The audit at the release may let more wait.
 *
 * @param populations as they were before where they were taken back
 * @cost reads the weeds' results and what releases were made of them
 */
export async function outlookOf(
  db: StaffDatabase,
  populations: readonly KnownPopulation[],
): Promise<Outlook> {
  const outlook: Outlook = { open: populations.length, asReleased: 0, enters: 0, waits: 0, waiting: [] };
  if (populations.length === 0 || (await lastReleaseNumber(db)) === 0) return outlook;
  for (const species of new Set(populations.map((population) => population.species))) {
    await lookAt(
      db,
      species,
      populations.filter((population) => population.species === species),
      outlook,
    );
  }
  return outlook;
}

async function lookAt(
  db: StaffDatabase,
  species: Eppo,
  populations: readonly KnownPopulation[],
  outlook: Outlook,
): Promise<void> {
  const order = { programme: await programmeOf(db), date: today(), note: '' };
  const { input } = await prepareRelease(db, order, species);
  const last = input.past?.at(-1);
  if (!last) return;
  const before = byPopulation(last.facts);
  const after = byPopulation(input.facts.filter(({ publicShare }) => publicShare));
  const told = new Set([...last.cube.closedSeasons, last.cube.openSeason]);
  const waiting = byUnit(waitingFor(input));
  for (const { id, key, season } of populations) {
    const own = (facts: ReadonlyMap<string, Fact[]>) => facts.get(id) ?? facts.get(key) ?? [];
    const [then, now] = [own(before), own(after)];
    if (!told.has(season) && !then.some((fact) => told.has(fact.season))) continue;
    outlook.open -= 1;
    const changed = changedGroups(then, now);
    const units = new Set([...then, ...now].filter(({ group }) => changed.has(group)).map(unitOf));
    const waits = [...units].flatMap((unit) => waiting.get(unit) ?? []);
    if (changed.size === 0) outlook.asReleased += 1;
    else if (waits.length === 0) outlook.enters += 1;
    else outlook.waits += 1;
    for (const unit of waits) if (!outlook.waiting.includes(unit)) outlook.waiting.push(unit);
  }
}

function byPopulation(facts: readonly Fact[]): Map<string, Fact[]> {
  const found = new Map<string, Fact[]>();
  for (const fact of facts) {
    const own = found.get(fact.population);
    if (own) own.push(fact);
    else found.set(fact.population, [fact]);
  }
  return found;
}

function byUnit(waiting: readonly Waiting[]): Map<string, Waiting[]> {
  const found = new Map<string, Waiting[]>();
  for (const unit of waiting) found.set(unitOf(unit), [...(found.get(unitOf(unit)) ?? []), unit]);
  return found;
}

function unitOf({ county, season, group }: Pick<Waiting, 'county' | 'season' | 'group'>): string {
  return `${county}|${season}|${group}`;
}

function changedGroups(before: readonly Fact[], after: readonly Fact[]): Set<Group> {
  const groups = new Set([...before, ...after].map(({ group }) => group));
  const of = (facts: readonly Fact[], group: Group) => facts.filter((fact) => fact.group === group);
  return new Set([...groups].filter((group) => !sameFacts(of(before, group), of(after, group))));
}
