import { activeResultsOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { cropNamed } from '@/lib/vocabulary/crops';

/** Whether a release would show these facts of a population as it shows those. */
export function sameFacts(a: readonly Fact[], b: readonly Fact[]): boolean {
  const others = byKey(b);
  return a.length === b.length && a.every((fact) => isSame(fact, others.get(keyOf(fact)) ?? null));
}

/** Whether two states of a population are the same to a release: its funder is never shown. */
export function isSame(a: Fact | null, b: Fact | null): boolean {
  if (a === b) return true;
  if (a === null || b === null) return false;
  return (
    a.county === b.county &&
    a.season === b.season &&
    a.species === b.species &&
    a.group === b.group &&
    a.assay === b.assay &&
    a.design === b.design &&
    a.operation === b.operation &&
    a.result === b.result &&
    a.actives.join() === b.actives.join() &&
    cropNamed(a.crop) === cropNamed(b.crop) &&
    byActiveText(a) === byActiveText(b)
  );
}

function byActiveText(fact: Fact): string {
  return activeResultsOf(fact)
    .map(({ active, result }) => `${active}: ${result}`)
    .join();
}

export function keyOf({ population, group, assay }: Fact): string {
  return `${population}|${group}|${assay}`;
}

export function byKey(facts: readonly Fact[]): Map<string, Fact> {
  return new Map(facts.map((fact) => [keyOf(fact), fact]));
}
