import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import type { Region } from '@/lib/geography/types';
import { bitCount } from '@/lib/stats/multiple-resistance';
import type { Season } from '@/lib/vocabulary/terms';
import type { Names } from '../names';
import type { MultipleKey, MultipleTask } from './types';

export interface MultipleTasksInput {
  /** Whole-plant results are looked at, with and without consent. */
  facts: Iterable<Fact>;
  region: Region;
  closedSeasons: readonly Season[];
  speciesName: Names['species'];
}

/**
 * What the analysis of multiple resistance looks at: each species of closed seasons, of all designs together and of each
 * design that has results. Of a sender's populations of one county and season the one screened for most groups counts.
 *
 * @returns ascending by species, design (all together first)
 */
export function multipleTasks({
  facts,
  region,
  closedSeasons,
  speciesName,
}: MultipleTasksInput): MultipleTask[] {
  const closed = new Set(closedSeasons);
  const district = new Map(region.counties.map(({ fips, district: own }) => [fips, own]));
  const species = new Map<string, { key: MultipleKey; facts: Fact[] }>();
  for (const fact of facts) {
    if (fact.assay !== 'whole plant' || !isTested(fact) || !closed.has(fact.season)) continue;
    for (const design of [null, fact.design]) {
      const label = `${fact.species}|${design ?? ''}`;
      const own = species.get(label);
      if (own) own.facts.push(fact);
      else species.set(label, { key: { species: fact.species, design }, facts: [fact] });
    }
  }
  return [...species]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, { key, facts: own }]) => {
      const groups = [...new Set(own.map(({ group }) => group))].sort((a, b) => a - b);
      const seasons = [...new Set(own.map(({ season }) => season))].sort((a, b) => a - b);
      const placeOf = (fact: Fact) => district.get(fact.county) ?? fact.county;
      const places = [...new Set(own.map(placeOf))].sort();
      const rows = chosen(own, groups).map(({ fact, tested, resistant }) => [
        seasons.indexOf(fact.season),
        places.indexOf(placeOf(fact)),
        tested,
        resistant,
      ]);
      rows.sort((a, b) => a.reduce((order, value, at) => order || value - b[at]!, 0));
      const column = (at: number) => rows.map((row) => row[at]!);
      return {
        kind: 'multiple',
        ...key,
        ...{ groups, seasons },
        populations: { season: column(0), place: column(1), tested: column(2), resistant: column(3) },
        speciesName: speciesName(key.species),
      };
    });
}

interface Screened {
  fact: Fact;
  tested: number;
  resistant: number;
}

function chosen(facts: readonly Fact[], groups: readonly number[]): Screened[] {
  const populations = new Map<string, Screened>();
  for (const fact of facts) {
    const own = populations.get(fact.population) ?? { fact, tested: 0, resistant: 0 };
    populations.set(fact.population, own);
    const bit = 1 << groups.indexOf(fact.group);
    own.tested |= bit;
    if (fact.result === 'resistant') own.resistant |= bit;
  }
  const bySender = new Map<string, Screened>();
  for (const one of populations.values()) {
    const key = `${one.fact.season}|${one.fact.county}|${senderOf(one.fact)}`;
    const before = bySender.get(key);
    if (!before || isBefore(one, before)) bySender.set(key, one);
  }
  return [...bySender.values()];
}

/** Screened for more groups, then by its masks and name: never by the order in which facts were read. */
function isBefore(a: Screened, b: Screened): boolean {
  const order =
    bitCount(b.tested) - bitCount(a.tested) ||
    b.tested - a.tested ||
    (a.fact.population < b.fact.population ? -1 : 1);
  return order < 0;
}
