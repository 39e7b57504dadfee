import type { Eppo } from '@/lib/vocabulary/terms';
import { isTested } from './facts';
import type { Fact } from './types';

/** Stands for the group where a fact is about several of them. It never leaves the private side. */
export const SEVERAL_GROUPS = -1;

/** Populations of one species that were screened against fewer groups cannot show multiple resistance. */
const FEWEST_GROUPS = 2;

/**
 * One fact for each population with a whole-plant result against two groups or more: `resistant` where it is resistant to
 * two or more, `some survivors` where to one, `susceptible` where to none. So multiple resistance is counted, withheld and
 * audited as a group of its own.
 *
 * @param facts in any order; such facts among them are passed over
 * @param isCounted which results count
 * @returns facts of the group `SEVERAL_GROUPS`, in the order in which their population came first. O(facts)
 */
export function multipleFacts(facts: Iterable<Fact>, isCounted: (fact: Fact) => boolean): Fact[] {
  const populations = new Map<string, Fact[]>();
  for (const fact of facts) {
    if (!isOne(fact)) continue;
    const key = populationKey(fact);
    const own = populations.get(key);
    if (own) own.push(fact);
    else populations.set(key, [fact]);
  }
  // What counts is asked last, and of these alone: it is looked up in every table.
  return [...populations.values()]
    .filter((own) => own.length >= FEWEST_GROUPS)
    .flatMap((own) => multipleFactOf(own.filter(isCounted)) ?? []);
}

/** The fact of one population from its facts by group, or null where there are too few groups. */
export function multipleFactOf(own: readonly Fact[]): Fact | null {
  const tested = own.filter(isOne);
  if (tested.length < FEWEST_GROUPS) return null;
  const resistant = tested.filter(({ result }) => result === 'resistant').length;
  const { byActive: _, ...first } = tested[0]!;
  return {
    ...first,
    group: SEVERAL_GROUPS,
    result: resistant > 1 ? 'resistant' : resistant === 1 ? 'some survivors' : 'susceptible',
    actives: [],
  };
}

/** Whether a fact is a whole-plant result of one group. */
function isOne(fact: Fact): boolean {
  return fact.assay === 'whole plant' && isTested(fact) && fact.group !== SEVERAL_GROUPS;
}

/** A population is one species from one field in one season. */
function populationKey({ population, species }: { population: string; species: Eppo }): string {
  return `${species}|${population}`;
}
