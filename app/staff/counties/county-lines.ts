import type { TestRow } from '@/db/repositories/facts';
import { factsOf, isTested } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';

/** What is known of a weed and a group in one county: exact, and private. */
export interface CountyLine {
  species: string;
  group: number;
  /** Every design and the assay apart are never pooled silently: these are whole-plant tests of all designs. */
  tested: number;
  resistant: number;
  /** Season of the first resistant result; null where there is none. */
  first: number | null;
  /** Seasons in which something was screened: counts of each. */
  seasons: { season: number; tested: number; resistant: number }[];
  /** Resistant populations that await a second run, and are in no release. */
  held: number;
  /** Operations that sent what was tested; one unknown operation stands for all samples that name none. */
  operations: number;
}

/**
 * Lines of weeds and groups from the tests of one county, those with resistance first, then by how much was screened.
 * Whole-plant tests only, as on the public map; populations count once for a group.
 */
export function countyLines(tests: readonly TestRow[]): CountyLine[] {
  const held = new Set(tests.filter((test) => test.held).map((test) => `${test.population}|${test.group}`));
  const lines = new Map<string, Fact[]>();
  for (const fact of factsOf(tests)) {
    if (fact.assay !== 'whole plant' || !isTested(fact)) continue;
    const key = `${fact.species}|${fact.group}`;
    lines.set(key, [...(lines.get(key) ?? []), fact]);
  }
  return [...lines.values()].map((facts) => lineOf(facts, held)).sort(mostFirst);
}

function lineOf(facts: readonly Fact[], held: ReadonlySet<string>): CountyLine {
  const resistant = facts.filter(({ result }) => result === 'resistant');
  const years = [...new Set(facts.map(({ season }) => season))].sort((a, b) => a - b);
  return {
    species: facts[0]!.species,
    group: facts[0]!.group,
    tested: facts.length,
    resistant: resistant.length,
    first: resistant.length > 0 ? Math.min(...resistant.map(({ season }) => season)) : null,
    seasons: years.map((season) => ({
      season,
      tested: facts.filter((fact) => fact.season === season).length,
      resistant: resistant.filter((fact) => fact.season === season).length,
    })),
    held: resistant.filter(({ population, group }) => held.has(`${population}|${group}`)).length,
    operations: new Set(facts.map(({ operation }) => operation ?? '')).size,
  };
}

function mostFirst(a: CountyLine, b: CountyLine): number {
  return (
    Number(b.resistant > 0) - Number(a.resistant > 0) ||
    b.tested - a.tested ||
    a.species.localeCompare(b.species) ||
    a.group - b.group
  );
}
