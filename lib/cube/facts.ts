import type { ActiveResult, Fact } from './types';

/** One screening of a population: an active (or mixture of one group) at one rate in one assay. Private. */
export type ScreeningTest = Omit<Fact, 'actives'> & {
  /** Actives sprayed; empty where the sheet named the group alone. */
  actives: readonly string[];
};

/**
 * One fact for each population × group × assay, however often it was screened: the population is resistant to a group
 * when it is resistant to any tested active of it at any rate that decides, else it has some survivors when any test
 * had, and so down `PRECEDENCE`. The actives of all tests with a result travel with the fact.
 *
 * @param tests in any order
 * @returns facts in the order in which their first test came
 */
export function factsOf(tests: Iterable<ScreeningTest>): Fact[] {
  const facts = new Map<string, Fact>();
  for (const test of tests) {
    const key = `${test.population}|${test.group}|${test.assay}`;
    const actives = isTested(test) ? test.actives : [];
    const fact = facts.get(key);
    if (!fact) {
      facts.set(key, { ...test, actives: [...actives].sort() });
      continue;
    }
    const byActive = addResult(activeResultsOf(fact), test);
    if (stronger(test.result, fact.result)) fact.result = test.result;
    if (actives.length > 0) fact.actives = [...new Set([...fact.actives, ...actives])].sort();
    if (byActive.length > 1) fact.byActive = byActive;
  }
  return [...facts.values()];
}

/** What a tested population showed against each active, by name; under `NOT_NAMED` where the sheet named the group alone. */
export function activeResultsOf(
  fact: Pick<Fact, 'actives' | 'result' | 'byActive'>,
): readonly ActiveResult[] {
  if (fact.byActive) return fact.byActive;
  return isTested(fact) ? [{ active: activeName(fact.actives), result: fact.result }] : [];
}

/** The active of a test of which the sheet named the group alone. */
export const NOT_NAMED = 'not named';

function activeName(actives: readonly string[]): string {
  return actives.length === 0 ? NOT_NAMED : [...actives].sort().join(' + ');
}

function addResult(known: readonly ActiveResult[], test: ScreeningTest): readonly ActiveResult[] {
  if (!isTested(test)) return known;
  const active = activeName(test.actives);
  const before = known.find((one) => one.active === active);
  const result = before && !stronger(test.result, before.result) ? before.result : test.result;
  const others = known.filter((one) => one !== before);
  return [...others, { active, result }].sort((a, b) => (a.active < b.active ? -1 : 1));
}

function stronger(result: Fact['result'], than: Fact['result']): boolean {
  return PRECEDENCE.indexOf(result) < PRECEDENCE.indexOf(than);
}

/** Whether the population has a result of this group. */
export function isTested({ result }: Pick<Fact, 'result'>): boolean {
  return TESTED.has(result);
}

/** Who sent it, for protection: a sample without an operation is from one unknown operation of its county. */
export function senderOf({ operation, county }: Pick<Fact, 'operation' | 'county'>): string {
  return operation ?? `unknown operation of ${county}`;
}

/** What several tests of a population show together: the first of these that one of them showed. */
export const PRECEDENCE: readonly Fact['result'][] = [
  'resistant',
  'some survivors',
  'susceptible',
  'inconclusive',
  'void run',
  'not testable',
];

const TESTED: ReadonlySet<Fact['result']> = new Set(['resistant', 'some survivors', 'susceptible']);
