import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { findAreas } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Eppo, Fips, Group, Period } from '@/lib/vocabulary/terms';
import type { Policy } from '../types';
import { districtLinks, type Joinable } from './district-links';
import { createEffortJudge, type Verdict } from './effort';
import { EXACT_LIMIT, type Partition, partitionExactly } from './partition';
import { partitionBySearch } from './partition-by-search';

export interface AreaQuestion {
  /** Facts with consent. */
  facts: readonly Fact[];
  region: Joinable;
  windows: readonly Period[];
  policy: Policy;
  /** Areas of earlier releases: they keep their counties for ever. */
  kept?: readonly AreaTable[];
}

/**
 * Joins the screened counties of each district, for each species and window, into contiguous areas whose populations may
 * be shown: as many as possible, compact (policy 2 of the design). Only where testing happened is looked at, never its
 * outcome. The areas serve all groups of the species: beside the species as a whole they are made to pass for as many
 * of its groups as gives the most cells that can be shown. A district that does not pass as a whole is one area, which
 * will be withheld.
 *
 * @returns a table for each species and window with results, in that order
 */
export function drawAreas({ facts, region, windows, policy, kept = [] }: AreaQuestion): AreaTable[] {
  const indexOf = new Map(region.counties.map(({ fips }, i) => [fips, i]));
  const bySpecies = new Map<Eppo, Fact[]>();
  for (const fact of facts) {
    if (fact.assay !== 'whole plant' || !isTested(fact) || !indexOf.has(fact.county)) continue;
    const list = bySpecies.get(fact.species);
    if (list) list.push(fact);
    else bySpecies.set(fact.species, [fact]);
  }
  const tables: AreaTable[] = [];
  for (const species of [...bySpecies.keys()].sort()) {
    for (const { first, last } of windows) {
      const known = findAreas(kept, species, first);
      const own = bySpecies.get(species)!.filter(({ season }) => first <= season && season <= last);
      if (known) tables.push(withNewcomers(known, own));
      else if (own.length > 0) tables.push({ species, first, areas: areasOf(own, region, indexOf, policy) });
    }
  }
  return tables;
}

/** Counties that were screened too late for their window stand by themselves: the other areas must not change. */
function withNewcomers(table: AreaTable, facts: readonly Fact[]): AreaTable {
  const known = new Set(table.areas.flat());
  const late = new Set(facts.map(({ county }) => county).filter((county) => !known.has(county)));
  return late.size === 0
    ? table
    : { ...table, areas: [...table.areas, ...[...late].sort().map((fips) => [fips])] };
}

function areasOf(
  facts: readonly Fact[],
  region: Joinable,
  indexOf: ReadonlyMap<Fips, number>,
  policy: Policy,
): Fips[][] {
  const byDistrict = new Map<string, Fact[]>();
  for (const fact of facts) {
    const { district, state } = region.counties[indexOf.get(fact.county)!]!;
    const key = district ?? state;
    byDistrict.set(key, [...(byDistrict.get(key) ?? []), fact]);
  }
  return [...byDistrict.values()]
    .flatMap((own) => districtAreas(own, region, indexOf, policy))
    .sort((a, b) => (a[0]! < b[0]! ? -1 : 1));
}

function districtAreas(
  facts: readonly Fact[],
  region: Joinable,
  indexOf: ReadonlyMap<Fips, number>,
  policy: Policy,
): Fips[][] {
  const screened = [...new Set(facts.map(({ county }) => indexOf.get(county)!))].sort((a, b) => a - b);
  const { links, distances } = districtLinks(region, screened);
  const place = new Map(screened.map((county, i) => [region.counties[county]!.fips, i]));
  const species = judgeOf(facts, place, policy);
  const groups = groupsOf(facts).map((own) => judgeOf(own, place, policy));
  let best: Partition | null = null;
  let most = -1;
  for (let honoured = 0; honoured <= groups.length; honoured++) {
    const asked = groups.slice(0, honoured);
    const passes = (counties: readonly number[]) =>
      species(counties) === 'passes' && asked.every((judge) => judge(counties) !== 'fails');
    const problem = { links, distances, passes };
    const partition = screened.length <= EXACT_LIMIT ? partitionExactly(problem) : partitionBySearch(problem);
    if (!partition) break;
    const shown = showable(partition, groups);
    if (shown >= most) [best, most] = [partition, shown];
  }
  const all = screened.map((_, i) => i);
  return (best ?? [all]).map((area) => area.map((i) => region.counties[screened[i]!]!.fips));
}

/** Facts by group, the group with most populations first. */
function groupsOf(facts: readonly Fact[]): Fact[][] {
  const groups = new Map<Group, Fact[]>();
  for (const fact of facts) groups.set(fact.group, [...(groups.get(fact.group) ?? []), fact]);
  return [...groups.entries()].sort(([a, x], [b, y]) => y.length - x.length || a - b).map(([, own]) => own);
}

/** Judges the populations of these facts, each counted once. */
function judgeOf(
  facts: readonly Fact[],
  place: ReadonlyMap<Fips, number>,
  policy: Policy,
): (counties: readonly number[]) => Verdict {
  const operations = Array.from({ length: place.size }, () => new Map<string, number>());
  const seen = new Set<string>();
  for (const fact of facts) {
    if (seen.has(fact.population)) continue;
    seen.add(fact.population);
    const own = operations[place.get(fact.county)!]!;
    const sender = senderOf(fact);
    own.set(sender, (own.get(sender) ?? 0) + 1);
  }
  return createEffortJudge(operations, policy);
}

/** Cells of areas × groups that could be shown; one that fails alone takes another one with it. */
function showable(
  partition: Partition,
  groups: readonly ((counties: readonly number[]) => Verdict)[],
): number {
  let shown = 0;
  for (const judge of groups) {
    const verdicts = partition.map((area) => judge(area));
    const passing = verdicts.filter((verdict) => verdict === 'passes').length;
    const failing = verdicts.filter((verdict) => verdict === 'fails').length;
    shown += failing === 1 ? Math.max(0, passing - 1) : passing;
  }
  return shown;
}
