import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { betaBinomial } from '@/lib/stats/beta-binomial';
import { constantRisk } from '@/lib/stats/constant-risk';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { empiricalBayes } from '@/lib/stats/empirical-bayes';
import { gearyPermutation } from '@/lib/stats/geary';
import { getisOrd } from '@/lib/stats/getis-ord';
import { joinCountsPermutation } from '@/lib/stats/join-counts';
import { localEmpiricalBayes } from '@/lib/stats/local-empirical-bayes';
import { localJoinCounts } from '@/lib/stats/local-join-counts';
import { localMoran } from '@/lib/stats/local-moran';
import { minimumP } from '@/lib/stats/minimum-p';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { deriveSeed, Random } from '@/lib/stats/random';
import { permutationsNeeded } from '@/lib/stats/resolution';
import { buildWeights, type Weights } from '@/lib/stats/weights';
import { enteringPlaces } from '../entering-places';
import { LEVEL } from '../judge-clustering';
import type { Observation } from '../types';
import { scanMap } from './scan-map';
import type { LocalResult, MapTask, MapTests, PlacePattern } from './types';

const REPLICATES = 999;

/**
 * All tests of one map, each by itself. Permutations suffice for a single place to be flagged once p is adjusted for
 * their number. Each test draws from a seed of its own.
 */
export function testMap(task: MapTask): MapTests {
  const { places, links } = enteringPlaces(task.observations, task.neighbours);
  const resistant = places.map((one) => one.resistant);
  const tested = places.map((one) => one.tested);
  const map = {
    ...{ places, links, resistant, tested },
    row: buildWeights(links, 'row'),
    binary: buildWeights(links, 'binary'),
    shares: places.map((one) => one.resistant / one.tested),
    z: ebStandardise(resistant, tested, 'binomial').z,
    found: foundAt(resistant),
    permutations: Math.max(9_999, permutationsNeeded(places.length, LEVEL)),
    random: (test: string) => new Random(deriveSeed(task.seed, test)),
  };
  return {
    places: places.map(({ place }) => place),
    global: globalTests(map),
    local: localTests(map),
    ...scanMap(task, REPLICATES),
    rates: rates(map),
    permutations: map.permutations,
    replicates: REPLICATES,
    warnings: warnings(map),
  };
}

interface TestedMap {
  places: readonly Observation[];
  row: Weights;
  binary: Weights;
  links: number[][];
  resistant: number[];
  tested: number[];
  shares: number[];
  /** Shares standardised for how many were tested. */
  z: Float64Array;
  /** 1 where resistant ones were found, 0 where none was; null where that is the same everywhere. */
  found: number[] | null;
  permutations: number;
  random: (test: string) => Random;
}

function globalTests(map: TestedMap): MapTests['global'] {
  const { row, binary, resistant, tested, shares, z, found, permutations, random } = map;
  const moran = moranPermutation(shares, row, { permutations, random: random('moran') });
  const geary = gearyPermutation(z, row, { permutations, random: random('geary') });
  const risk = constantRisk(resistant, tested, row, { replicates: REPLICATES, random: random('risk') });
  const joins =
    found && joinCountsPermutation(found, 2, binary, { permutations, random: random('joins') }).same[1]!;
  return {
    moran: { statistic: moran.index, p: moran.pGreater },
    geary: { statistic: geary.ratio, p: geary.pLess },
    joinCounts: joins && { statistic: joins.joins, p: joins.pGreater },
    constantRisk: { statistic: risk.index, p: risk.pGreater },
  };
}

function localTests(map: TestedMap): MapTests['local'] {
  const { row, binary, resistant, tested, z, found, permutations, random } = map;
  const run = (test: string) => ({ permutations, random: random(test) });
  const moran = localMoran(z, row, run('local moran'));
  const g = getisOrd(z, binary, { ...run('g'), statistic: 'G' });
  const gStar = getisOrd(z, binary, { ...run('g*'), statistic: 'G*' });
  const joins = found && localJoinCounts(found, binary, run('local joins'));
  const { adjusted } = minimumP(resistant, tested, row, {
    replicates: REPLICATES,
    random: random('minimum p'),
  });
  return {
    moran: local(moran.index, moran.p, (i) => besideNeighbours(moran.z[i]!, moran.lag[i]!)),
    g: local(g.z, g.p, (i) => around(g.z[i]!)),
    gStar: local(gStar.z, gStar.p, (i) => around(gStar.z[i]!)),
    joinCounts: joins && local(joins.joins, joins.p, () => 'found, amid found'),
    minimumP: { adjustedP: [...adjusted], replicates: REPLICATES },
  };
}

function local(
  statistic: ArrayLike<number>,
  p: Float64Array,
  patternOf: (place: number) => PlacePattern,
): LocalResult {
  const adjustedP = [...benjaminiHochberg(p)];
  return {
    pattern: adjustedP.map((each, i) => (each <= LEVEL ? patternOf(i) : 'no sign')),
    statistic: Array.from(statistic),
    p: [...p],
    adjustedP,
  };
}

function besideNeighbours(own: number, neighbours: number): PlacePattern {
  return `${own > 0 ? 'more' : 'fewer'}, amid ${neighbours > 0 ? 'more' : 'fewer'}`;
}

function around(z: number): PlacePattern {
  return z > 0 ? 'more around here' : 'fewer around here';
}

function rates({ resistant, tested, links }: TestedMap): MapTests['rates'] {
  const { mean, correlation, correlationError, p, estimate } = betaBinomial(resistant, tested);
  return {
    ...{ mean, correlation, correlationError, p },
    betaBinomial: [...estimate],
    global: [...empiricalBayes(resistant, tested, 'binomial').estimate],
    local: [...localEmpiricalBayes(resistant, tested, links).estimate],
  };
}

function foundAt(resistant: readonly number[]): number[] | null {
  const found = resistant.map((count) => Number(count > 0));
  return new Set(found).size > 1 ? found : null;
}

/** How often each test is wrong stands in tests/reference/calibration-clustering.md. */
function warnings({ places, tested, resistant }: TestedMap): string[] {
  const total = (counts: readonly number[]) => counts.reduce((sum, count) => sum + count, 0);
  const single = tested.filter((count) => count === 1).length;
  const share = total(resistant) / total(tested);
  return [
    ...(2 * single > places.length
      ? [
          `In ${single} of ${places.length} places one population was screened: whether it was found says little there.`,
        ]
      : []),
    ...(new Set(tested).size > 1
      ? [
          'Join counts look at found or not found alone: where much was tested more is found, so uneven testing looks like clustering to them.',
        ]
      : []),
    ...(share < 0.1
      ? [
          'So few are resistant that local Moran and G* flag some place on up to 30 of 100 maps without any pattern: go by the exact test.',
        ]
      : []),
  ];
}
