import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { squareKilometres } from '@/lib/geography/square-kilometres';
import type { Region } from '@/lib/geography/types';
import { deriveSeed } from '@/lib/stats/random';
import type { Eppo, Fips, Group, Season } from '@/lib/vocabulary/terms';
import { type Names, regionNames } from '../names';
import type { CropExposure } from './look-next/types';
import type { SpreadGround, SpreadKey, SpreadTask } from './types';

export interface SpreadTasksInput {
  /** Whole-plant results are looked at, with and without consent. */
  facts: Iterable<Fact>;
  region: Region;
  /** A season under way is never compared with a closed one: its results wait until it is closed. */
  closedSeasons: readonly Season[];
  /** Finds known from before the programme. */
  foundBefore: readonly { species: Eppo; group: Group; county: Fips }[];
  exposureOf: (species: Eppo, counties: readonly Fips[]) => CropExposure | null;
  seed: number;
  speciesName: Names['species'];
}

/**
 * What the analysis of spread looks at: each species × group of closed seasons, of all designs together and of each design
 * that has results. Private: counts are exact.
 *
 * @returns ascending by species, group, design (all together first)
 */
export function spreadTasks(input: SpreadTasksInput): SpreadTask[] {
  const { facts, region, closedSeasons, seed } = input;
  const names = regionNames(region, input.speciesName);
  const ground = groundOf(region, names);
  const indexOf = new Map(ground.counties.map((county, i) => [county, i]));
  const closed = new Set(closedSeasons);
  const pairs = new Map<string, { key: SpreadKey; facts: Fact[] }>();
  for (const fact of facts) {
    const enters =
      fact.assay === 'whole plant' && isTested(fact) && closed.has(fact.season) && indexOf.has(fact.county);
    if (!enters) continue;
    for (const design of [null, fact.design]) {
      const key = { species: fact.species, group: fact.group, design };
      const pair = pairs.get(spreadLabel(key));
      if (pair) pair.facts.push(fact);
      else pairs.set(spreadLabel(key), { key, facts: [fact] });
    }
  }
  return [...pairs.values()]
    .sort((a, b) => byKey(a.key, b.key))
    .map(({ key, facts: own }) => {
      const first = own.reduce((least, { season }) => Math.min(least, season), Number.POSITIVE_INFINITY);
      const seasons = [...closed].filter((season) => season >= first).sort((a, b) => a - b);
      return {
        kind: 'spread',
        ...key,
        ground,
        seasons,
        populations: counted(own, seasons, indexOf),
        next: seasons.at(-1)! + 1,
        foundBefore: input.foundBefore
          .filter(({ species, group }) => species === key.species && group === key.group)
          .map(({ county }) => county)
          .sort(),
        exposure: input.exposureOf(key.species, ground.counties),
        speciesName: names.species(key.species),
        seed: deriveSeed(seed, `spread|${spreadLabel(key)}`),
      };
    });
}

/** The same for the same spread, whatever else is analysed. */
export function spreadLabel({ species, group, design }: SpreadKey): string {
  return `${species}|${group}|${design ?? 'all'}`;
}

function groundOf(region: Region, names: Names): SpreadGround {
  const { counties, neighbours } = region;
  const districts = region.districts.map(({ code }) => code);
  const districtAt = new Map(districts.map((code, i) => [code, i]));
  return {
    counties: counties.map(({ fips }) => fips),
    neighbours: neighbours.map((list) => [...list]),
    lon: counties.map(({ lon }) => lon),
    lat: counties.map(({ lat }) => lat),
    areas: counties.map(squareKilometres),
    districtOf: counties.map(({ district }) =>
      district === null ? null : (districtAt.get(district) ?? null),
    ),
    districts,
    countyNames: counties.map(({ fips }) => names.place('county', fips)),
    districtNames: districts.map((code) => names.place('district', code)),
  };
}

/** In the order of season, county, sender and result, so that what comes out does not depend on how facts were read. */
function counted(
  facts: readonly Fact[],
  seasons: readonly Season[],
  indexOf: ReadonlyMap<Fips, number>,
): SpreadTask['populations'] {
  const senders = [...new Set(facts.map(senderOf))].sort();
  const senderAt = new Map(senders.map((sender, i) => [sender, i]));
  const rows = facts
    .map((fact) => [
      seasons.indexOf(fact.season),
      indexOf.get(fact.county)!,
      senderAt.get(senderOf(fact))!,
      Number(fact.result === 'resistant'),
    ])
    .sort((a, b) => a[0]! - b[0]! || a[1]! - b[1]! || a[2]! - b[2]! || a[3]! - b[3]!);
  const column = (at: number) => rows.map((row) => row[at]!);
  return { season: column(0), county: column(1), sender: column(2), resistant: column(3) };
}

function byKey(a: SpreadKey, b: SpreadKey): number {
  const text = (x: string, y: string) => (x < y ? -1 : x > y ? 1 : 0);
  return text(a.species, b.species) || a.group - b.group || text(a.design ?? '', b.design ?? '');
}
