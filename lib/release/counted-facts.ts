import { activeResultsOf, isTested } from '@/lib/cube/facts';
import { SEVERAL_GROUPS } from '@/lib/cube/multiple-facts';
import type { CellPart, Fact } from '@/lib/cube/types';
import type { LadderTable } from '@/lib/disclosure/ladder';
import { cropNamed } from '@/lib/vocabulary/crops';

/**
 * What a table of the ladder counts, from the facts: for most tables these themselves; by active one for each active
 * that a population was tested on, with what it showed there; about several groups the facts that are (`multipleFacts`).
 */
export function countedFacts(facts: readonly Fact[], { by, several, assays }: LadderTable): readonly Fact[] {
  const entering = facts.filter(
    ({ assay, group }) => assays.includes(assay) && (group === SEVERAL_GROUPS) === (several ?? false),
  );
  return by === 'active' ? entering.flatMap(factsByActive) : entering;
}

/** Of a tested fact one for each active. */
export function factsByActive(fact: Fact): Fact[] {
  if (!isTested(fact)) return [];
  const { byActive: _, ...whole } = fact;
  return activeResultsOf(fact).map(({ active, result }) => ({ ...whole, result, actives: [active] }));
}

/** The part of a cell in which a fact counts; undefined in a table of whole cells. */
export function partOf(by: CellPart['of'], fact: Fact): CellPart {
  return { of: by, name: by === 'crop' ? cropNamed(fact.crop) : fact.actives[0]! };
}
