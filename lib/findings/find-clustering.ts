import type { PlaceKey } from '@/lib/vocabulary/terms';
import { clusteringSentence } from './clustering-sentence';
import { enteringPlaces } from './entering-places';
import { judgeClustering } from './judge-clustering';
import { comparePlaces } from './known-places';
import { madeOf, type SenderCounts } from './made-of';
import { CODES, type Names } from './names';
import type { PlaceNeighbours } from './place-neighbours';
import type { Point } from './scan-for-circle';
import type { Clustering, Observation } from './types';
import { placeWord, singular } from './wording';

/** Places with a known neighbour that a map needs before anything is said. */
export const MINIMUM_PLACES = { area: 20, district: 10 } as const;

export interface ClusteringInput {
  /** Of this species, group and period at this grain, in any order. */
  observations: readonly Observation[];
  neighbours: PlaceNeighbours;
  /** A point of each place, in degrees: without one it is in no circle. */
  points?: ReadonlyMap<PlaceKey, Point>;
  /** Staff only: what each operation sent from a place. */
  senders?: ReadonlyMap<PlaceKey, readonly SenderCounts[]>;
  grain: Clustering['grain'];
  species: Clustering['species'];
  group: Clustering['group'];
  period: Clustering['period'];
  /** 0 … 2^53 − 1; the result is a function of the input and of this. */
  seed: number;
  permutations: number;
  names?: Names;
}

/**
 * Do places with a high resistant share lie together, and where? Over known places only: `judgeClustering` on those with
 * a known neighbour. A known place without one is left out, counted and listed as `too little tested`.
 *
 * @throws RangeError for a place given twice; StatsError for impossible counts
 */
export function findClustering(input: ClusteringInput): Clustering {
  const { observations, neighbours, grain, species, group, period, names = CODES } = input;
  const { places: entering, links, isolated } = enteringPlaces(observations, neighbours);
  const enough = entering.length >= MINIMUM_PLACES[grain];
  const judged = enough ? judgeClustering({ ...input, places: entering, links }) : null;
  const senders = judged && madeOf(judged.where, input.senders);
  const found: Omit<Clustering, 'sentence'> = {
    kind: 'clustering',
    species,
    group,
    period,
    grain,
    places: entering.length,
    isolated: isolated.length,
    ...(judged ?? NOT_JUDGED),
    local: judged ? [...judged.local, ...isolated.map(notCompared)].sort(byPlace) : [],
    ...(senders ? { madeOf: senders } : {}),
    reason: judged ? null : whyNone(entering, grain),
  };
  return { ...found, sentence: clusteringSentence(found, entering, names) };
}

const NOT_JUDGED = {
  verdict: 'too little tested',
  p: null,
  tests: 0,
  where: [],
  detectable: null,
  global: null,
  local: [],
  strongest: null,
} as const satisfies Partial<Clustering>;

function notCompared({ place, tested, resistant }: Observation): Clustering['local'][number] {
  return { place, pattern: 'too little tested', tested, resistant, expected: resistant, p: 1, adjustedP: 1 };
}

function whyNone(entering: readonly Observation[], grain: Clustering['grain']): string {
  const places = placeWord(grain);
  const needed = MINIMUM_PLACES[grain];
  if (entering.length < needed) {
    const known =
      entering.length === 0
        ? `No ${singular(grain)} with a known count lies`
        : `Only ${entering.length} ${places} with a known count lie`;
    return `${known} next to another one; at least ${needed} are needed to tell a pattern from chance.`;
  }
  const resistant = entering.reduce((sum, observation) => sum + observation.resistant, 0);
  if (resistant === 0)
    return 'No resistant population was found, so there is nothing that could lie together.';
  return `The share is the same in all ${places}, so there is no pattern to look for.`;
}

function byPlace(a: { place: string }, b: { place: string }): number {
  return comparePlaces(a.place, b.place);
}
