import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { Fact } from '@/lib/cube/types';
import type { Change } from './changes';
import { isSame, keyOf } from './same-fact';

/** For each population of which anything differs between any releases, by the key of its fact about several groups, the keys of its others. */
export function severalKeys(
  past: readonly (readonly Fact[])[],
  changes: ReadonlyMap<string, Change>,
): Map<string, string[]> {
  const states = new Map<string, Fact>();
  const differing = new Set<string>();
  for (const facts of past) {
    for (const fact of facts) {
      const key = keyOf(fact);
      const before = states.get(key);
      if (before !== undefined && !isSame(before, fact)) differing.add(fact.population);
      states.set(key, fact);
    }
  }
  const last = new Set(past.at(-1)!.map(keyOf));
  for (const [key, { population }] of states) if (!last.has(key)) differing.add(population);
  const first = new Set(past[0]!.map(keyOf));
  for (const [key, { population }] of states) if (!first.has(key)) differing.add(population);
  for (const [key, { before, after }] of changes) {
    states.set(key, (after ?? before)!);
    differing.add((after ?? before)!.population);
  }
  const keys = new Map<string, string[]>();
  for (const [key, fact] of states) {
    if (!differing.has(fact.population) || fact.assay !== 'whole plant') continue;
    const several = keyOf({ ...fact, group: SEVERAL_GROUPS });
    keys.set(several, [...(keys.get(several) ?? []), key]);
  }
  return keys;
}
