import type { Fact } from '@/lib/cube/types';
import type { Joinable } from '@/lib/disclosure/areas/district-links';
import { drawAreas } from '@/lib/disclosure/areas/draw-areas';
import { ladder } from '@/lib/disclosure/ladder';
import type { PlaceTree } from '@/lib/disclosure/places';
import { DEFAULT_POLICY } from '@/lib/disclosure/policy';
import type { GateInput } from '@/lib/disclosure/protect';
import type { Policy } from '@/lib/disclosure/types';
import { unionFromFacts } from '@/lib/disclosure/union';
import { fixedWindows } from '@/lib/disclosure/windows';
import { ladderCells } from '@/lib/release/ladder-cells';
import type { Design } from '@/lib/vocabulary/terms';

// Everything made here is invented.

export interface Shape {
  states: number;
  /** Districts in each state. */
  districts: number;
  /** Counties in each district. */
  counties: number;
}

export function inventTree({ states, districts, counties }: Shape): PlaceTree {
  const tree = {
    counties: [] as PlaceTree['counties'][number][],
    districts: [] as PlaceTree['districts'][number][],
  };
  for (let s = 0; s < states; s++) {
    const state = `S${s}`;
    for (let d = 0; d < districts; d++) {
      const code = `${state}-${d}`;
      const own = Array.from({ length: counties }, (_, c) => `${10 + s}${d}${String(c).padStart(2, '0')}`);
      tree.districts.push({ code, state, counties: own });
      tree.counties.push(...own.map((fips) => ({ fips, state, district: code })));
    }
  }
  return tree;
}

/** Small fast generator of random numbers in [0, 1) (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Effort {
  seed: number;
  firstSeason: number;
  seasons: number;
  /** Mean populations by county and season; uneven over counties. */
  mean: number;
  /** Share resistant. */
  share: number;
  pairs?: { species: string; group: number }[];
  openSeason?: boolean;
}

export function inventFacts(tree: PlaceTree, effort: Effort): Fact[] {
  const random = randomFrom(effort.seed);
  const more = randomFrom(effort.seed + 77);
  const facts: Fact[] = [];
  const pairs = effort.pairs ?? [{ species: 'KCHSC', group: 9 }];
  const last = effort.firstSeason + effort.seasons - 1 + (effort.openSeason ? 1 : 0);
  for (const { species, group } of pairs) {
    for (const { fips } of tree.counties) {
      const weight = 0.3 + 1.4 * random();
      const local = Math.min(1, effort.share * 2 * random());
      for (let season = effort.firstSeason; season <= last; season++) {
        const size = poisson(effort.mean * weight, random);
        for (let i = 0; i < size; i++) {
          const roll = random();
          const who = random();
          facts.push({
            population: `${species}${group}${fips}${season}${i}`,
            county: fips,
            season,
            species,
            group,
            assay: random() < 0.06 ? 'molecular' : 'whole plant',
            design: designOf(random()),
            crop: [null, 'Corn', 'maize', 'soybeans', 'wheat'][Math.floor(more() * 5)]!,
            funder: null,
            operation:
              who < 0.25
                ? null
                : `${fips}-${Math.floor(random() * (2 + effort.mean * effort.seasons * 0.4))}`,
            result: resultOf(roll, local),
            actives: ['glyphosate'],
            publicShare: random() < 0.98,
          });
          if (more() < 0.3) addSecondActive(facts.at(-1)!, more);
        }
      }
    }
  }
  return facts;
}

/** A second active, weaker or as strong as the result, so that the fact stays what it was. */
function addSecondActive(fact: Fact, random: () => number): void {
  const { result } = fact;
  if (result !== 'resistant' && result !== 'some survivors' && result !== 'susceptible') return;
  const other = random() < 0.5 ? result : 'susceptible';
  const [first, second] = random() < 0.5 ? [result, other] : [other, result];
  fact.actives = ['glyphosate', 'sulfosate'];
  fact.byActive = [
    { active: 'glyphosate', result: first },
    { active: 'sulfosate', result: second },
  ];
}

/** The same populations, most of them screened against more groups too. */
export function againstMoreGroups(facts: readonly Fact[], groups: readonly number[], seed: number): Fact[] {
  const random = randomFrom(seed);
  return facts.flatMap((fact) => {
    const { byActive: _, ...own } = fact;
    const others = groups.filter(() => random() < 0.7);
    return [
      fact,
      ...others.map((group): Fact => {
        const alike = random() < 0.5 ? fact.result : resultOf(random(), 0.3);
        return { ...own, group, actives: [], result: alike };
      }),
    ];
  });
}

/** The gate's input from facts, the way a release makes it. */
export function gateInput(
  facts: Fact[],
  places: PlaceTree,
  effort: Pick<Effort, 'firstSeason' | 'seasons' | 'openSeason'>,
  policy: Policy = DEFAULT_POLICY,
): GateInput {
  const closedSeasons = Array.from({ length: effort.seasons }, (_, i) => effort.firstSeason + i);
  const openSeason = effort.openSeason ? effort.firstSeason + effort.seasons : null;
  const question = { policy, firstSeason: effort.firstSeason, closedSeasons, openSeason };
  const shared = facts.filter(({ publicShare }) => publicShare);
  const windows = fixedWindows(effort.firstSeason, closedSeasons, policy.windowLength);
  const areas = drawAreas({ facts: shared, region: inALine(places), windows, policy });
  return {
    ...question,
    places,
    areas,
    cells: ladderCells(shared, ladder(question), places, areas),
    unionOf: unionFromFacts(facts, places),
  };
}

/** Invented geography: the counties of a tree lie in a row, 50 km apart, and touch the next one. */
export function inALine({ counties }: PlaceTree): Joinable {
  return {
    counties: counties.map((county, i) => ({ ...county, lon: -100 + 0.6 * i, lat: 40 })),
    neighbours: counties.map((_, i) => [i - 1, i + 1].filter((j) => j >= 0 && j < counties.length)),
  };
}

function designOf(roll: number): Design {
  return roll < 0.9 ? 'submitted' : roll < 0.97 ? 'random' : 'follow-up';
}

function resultOf(roll: number, share: number): Fact['result'] {
  if (roll < 0.03) return 'not testable';
  if (roll < 0.05) return 'inconclusive';
  const rest = (roll - 0.05) / 0.95;
  if (rest < share) return 'resistant';
  return rest < share + 0.1 * (1 - share) ? 'some survivors' : 'susceptible';
}

function poisson(mean: number, random: () => number): number {
  const limit = Math.exp(-mean);
  let count = 0;
  for (let product = random(); product > limit; product *= random()) count++;
  return count;
}
