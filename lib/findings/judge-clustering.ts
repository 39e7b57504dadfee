import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { whereDefined } from '@/lib/stats/errors';
import { holm } from '@/lib/stats/holm';
import { localHypergeometric } from '@/lib/stats/local-hypergeometric';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import type { PlaceKey } from '@/lib/vocabulary/terms';
import { type Point, scanForCircle } from './scan-for-circle';
import type { Clustering, Observation } from './types';

/** The level of the verdict, and of each place. */
export const LEVEL = 0.05;

export type Judged = Pick<
  Clustering,
  'verdict' | 'p' | 'tests' | 'where' | 'detectable' | 'global' | 'local' | 'strongest'
>;

export interface MapToJudge {
  /** Each with at least one of the others as a neighbour. */
  places: readonly Observation[];
  /** For each place the indices of its neighbours. */
  links: readonly (readonly number[])[];
  points?: ReadonlyMap<PlaceKey, Point>;
  seed: number;
  permutations: number;
}

/**
 * One verdict from three tests: are neighbours alike (EB-standardised Moran index by permutation), does a place stand out
 * with its neighbours (exact, p adjusted for the number of places), does a circle (Bernoulli scan)? The smallest of
 * their p, allowing for the number of tests, decides, so a map without any pattern is told to have one in at most 5 of
 * 100 cases. Where and what is only told of maps that pass.
 *
 * @returns null where all places have the same share
 */
export function judgeClustering({ places, links, points, seed, permutations }: MapToJudge): Judged | null {
  const resistant = places.map((one) => one.resistant);
  const tested = places.map((one) => one.tested);
  const z = whereDefined(['constant'], () => ebStandardise(resistant, tested, 'binomial').z);
  if (!z) return null;
  const weights = buildWeights(links, 'row');
  const alike = moranPermutation(z, weights, { permutations, random: new Random(seed) });
  const around = localHypergeometric(resistant, tested, weights);
  const adjusted = benjaminiHochberg(around.p);
  const circle = scanForCircle(places, points, seed);

  const asked = [alike.pGreater, Math.min(...adjusted), ...(circle ? [circle.strongest?.p ?? 1] : [])];
  const allowed = holm(asked);
  const p = Math.min(...allowed);
  const isTogether = p <= LEVEL;
  const local = places.map(({ place }, i) => {
    const here = { resistant: around.windowResistant[i]!, expected: around.expected[i]! };
    const side =
      here.resistant > here.expected ? ('more around here' as const) : ('less around here' as const);
    return {
      place,
      pattern: isTogether && adjusted[i]! <= LEVEL ? side : ('no sign' as const),
      tested: around.windowTested[i]!,
      ...here,
      p: around.p[i]!,
      adjustedP: adjusted[i]!,
    };
  });
  const standsOut = isTogether && circle?.strongest != null && allowed[2]! <= LEVEL;
  const raised = local.filter(({ pattern }) => pattern === 'more around here').map(({ place }) => place);
  return {
    verdict: isTogether ? 'lie together' : 'no sign',
    p,
    tests: asked.length,
    where: standsOut ? circle.strongest!.places : raised,
    detectable: isTogether ? null : (circle?.detectable(LEVEL / asked.length) ?? null),
    global: { index: alike.index, expected: alike.expected, p: alike.pGreater, permutations, seed },
    local,
    strongest: circle?.strongest ?? null,
  };
}
