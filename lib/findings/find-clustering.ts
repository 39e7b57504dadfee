import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { StatsError } from '@/lib/stats/errors';
import { localHypergeometric } from '@/lib/stats/local-hypergeometric';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { scanCircles } from '@/lib/stats/scan/scan-circles';
import { buildWeights } from '@/lib/stats/weights';
import type { PlaceKey } from '@/lib/vocabulary/terms';
import { clusteringSentence } from './clustering-sentence';
import { comparePlaces, knownPlaces } from './known-places';
import { CODES, type Names } from './names';
import type { PlaceNeighbours } from './place-neighbours';
import type { Clustering, Observation, StrongestCircle } from './types';
import { placeWord, singular } from './wording';

/** Adjusted p at which a place, and p at which a map, is said to stand out. */
export const LEVEL = 0.05;

/** Places with a known neighbour that a map needs before anything is said. */
export const MINIMUM_PLACES = { area: 20, district: 10 } as const;

export interface ClusteringInput {
  /** Of this species, group and period at this grain, in any order. */
  observations: readonly Observation[];
  neighbours: PlaceNeighbours;
  /** A point of each place, in degrees: without one it is in no circle. */
  points?: ReadonlyMap<PlaceKey, { lon: number; lat: number }>;
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
 * Do places with a high resistant share lie together, and where? Over known places only.
 *
 * At all: EB-standardised Moran index (Assunção & Reis 1999, in the binomial form of `ebStandardise`) by permutation.
 * Where: each place with its neighbours against the whole map, exact given what was tested where, p adjusted for the
 * number of places (Benjamini & Hochberg 1995). The strongest circle: Bernoulli scan at half of the tested (Kulldorff &
 * Nagarwalla 1995), p by Monte Carlo. A known place without a known neighbour is left out, counted and listed as `too
 * little tested`.
 *
 * @throws RangeError for a place given twice; StatsError for impossible counts
 */
export function findClustering(input: ClusteringInput): Clustering {
  const { observations, neighbours, grain, species, group, period, names = CODES } = input;
  const known = knownPlaces(observations);
  const isKnown = new Set(known.map(({ place }) => place));
  const knownNeighbours = (place: string) =>
    [...new Set(neighbours.get(place) ?? [])].filter((other) => other !== place && isKnown.has(other));
  const entering = known.filter(({ place }) => knownNeighbours(place).length > 0);
  const isolated = known.filter(({ place }) => knownNeighbours(place).length === 0);

  const at = new Map(entering.map(({ place }, i) => [place, i]));
  const links = entering.map(({ place }) => knownNeighbours(place).map((other) => at.get(other)!));
  const verdict = entering.length < MINIMUM_PLACES[grain] ? null : judge(entering, links, input);
  const found: Omit<Clustering, 'sentence'> = {
    kind: 'clustering',
    species,
    group,
    period,
    grain,
    places: entering.length,
    isolated: isolated.length,
    global: verdict?.global ?? null,
    local: verdict ? [...verdict.local, ...isolated.map(notCompared)].sort(byPlace) : [],
    strongest: verdict?.strongest ?? null,
    reason: verdict ? null : whyNone(entering, grain),
  };
  return { ...found, sentence: clusteringSentence(found, entering, names) };
}

type Verdict = Pick<Clustering, 'local' | 'strongest'> & {
  global: NonNullable<Clustering['global']>;
};

/** null where all places have the same share. */
function judge(
  entering: readonly Observation[],
  links: readonly (readonly number[])[],
  input: ClusteringInput,
): Verdict | null {
  const { seed, permutations } = input;
  const z = standardised(entering);
  if (!z) return null;
  const weights = buildWeights(links, 'row');
  const random = new Random(seed);
  const { index, expected, pGreater } = moranPermutation(z, weights, { permutations, random });
  const [resistant, tested] = [entering.map((one) => one.resistant), entering.map((one) => one.tested)];
  const around = localHypergeometric(resistant, tested, weights);
  const adjusted = benjaminiHochberg(around.p);
  return {
    global: { index, expected, p: pGreater, permutations, seed },
    local: entering.map(({ place }, i) => {
      const here = { resistant: around.windowResistant[i]!, expected: around.expected[i]! };
      const side = here.resistant > here.expected ? 'more around here' : 'less around here';
      return {
        place,
        pattern: adjusted[i]! <= LEVEL ? side : 'no sign',
        tested: around.windowTested[i]!,
        ...here,
        p: around.p[i]!,
        adjustedP: adjusted[i]!,
      };
    }),
    strongest: strongestCircle(entering, input),
  };
}

/** Replicates of the scan: p can be as small as 0.001. */
const REPLICATES = 999;

function strongestCircle(
  entering: readonly Observation[],
  { points, seed }: ClusteringInput,
): StrongestCircle | null {
  const placed = entering.filter(({ place }) => points?.has(place));
  if (placed.length < 2) return null;
  const at = placed.map(({ place }) => points!.get(place)!);
  const counts = { tested: placed.map((one) => one.tested), resistant: placed.map((one) => one.resistant) };
  const where = { x: at.map(({ lon }) => lon), y: at.map(({ lat }) => lat), metric: 'great circle' as const };
  const { limits } = scanCircles(where, counts, 'bernoulli', {
    seed,
    replicates: REPLICATES,
    shares: [0.5],
    most: 1,
  });
  const window = limits[0]!.windows[0];
  if (!window) return null;
  const { centre, places, radius, tested, resistant, expected, p } = window;
  return {
    centre: placed[centre]!.place,
    places: [...places].map((i) => placed[i]!.place),
    radiusKm: radius,
    tested: tested!,
    resistant,
    expected,
    p,
  };
}

function standardised(entering: readonly Observation[]): Float64Array | null {
  try {
    return ebStandardise(
      entering.map(({ resistant }) => resistant),
      entering.map(({ tested }) => tested),
      'binomial',
    ).z;
  } catch (error) {
    if (error instanceof StatsError && error.code === 'constant') return null;
    throw error;
  }
}

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
