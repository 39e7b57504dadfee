import { describe, expect, it } from 'vitest';
import { betaBinomial } from '@/lib/stats/beta-binomial';
import { constantRisk } from '@/lib/stats/constant-risk';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { empiricalBayes } from '@/lib/stats/empirical-bayes';
import { StatsError } from '@/lib/stats/errors';
import { geary, gearyPermutation } from '@/lib/stats/geary';
import { getisOrd } from '@/lib/stats/getis-ord';
import { joinCounts, joinCountsPermutation } from '@/lib/stats/join-counts';
import { localEmpiricalBayes } from '@/lib/stats/local-empirical-bayes';
import { localHypergeometric } from '@/lib/stats/local-hypergeometric';
import { localJoinCounts } from '@/lib/stats/local-join-counts';
import { localMoran } from '@/lib/stats/local-moran';
import { minimumP } from '@/lib/stats/minimum-p';
import { moran } from '@/lib/stats/moran';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { scanCircles } from '@/lib/stats/scan/scan-circles';
import { buildWeights } from '@/lib/stats/weights';
import { lattice } from './invented-map';

// Every test of clustering on every map that is none, or is a strange one. Invented.
const run = () => ({ permutations: 99, random: new Random(1) });
const replicates = () => ({ replicates: 99, random: new Random(1) });

interface Map {
  resistant: number[];
  tested: number[];
  lists: number[][];
}

type Test = (map: Map) => unknown;
const share: (map: Map) => number[] = ({ resistant, tested }) =>
  resistant.map((count, i) => count / tested[i]!);
const found: (map: Map) => number[] = ({ resistant }) => resistant.map((count) => Number(count > 0));
const row = ({ lists }: Map) => buildWeights(lists, 'row');

/** Those of counts. */
const OF_COUNTS: Record<string, Test> = {
  'EB standardisation': ({ resistant, tested }) => ebStandardise(resistant, tested, 'binomial'),
  'empirical Bayes': ({ resistant, tested }) => empiricalBayes(resistant, tested, 'binomial'),
  'local empirical Bayes': ({ resistant, tested, lists }) => localEmpiricalBayes(resistant, tested, lists),
  'beta-binomial': ({ resistant, tested }) => betaBinomial(resistant, tested),
  'constant risk': (map) => constantRisk(map.resistant, map.tested, row(map), replicates()),
  'exact local test': (map) => localHypergeometric(map.resistant, map.tested, row(map)),
  'minimum p': (map) => minimumP(map.resistant, map.tested, row(map), replicates()),
  scan: ({ resistant, tested }) =>
    scanCircles(
      { x: tested.map((_, i) => i % 4), y: tested.map((_, i) => Math.floor(i / 4)), metric: 'plane' },
      { resistant, tested },
      'bernoulli',
      { seed: 1, replicates: 99 },
    ),
};

/** Those of values, here the shares, or of what was found. */
const OF_VALUES: Record<string, Test> = {
  Moran: (map) => moran(share(map), row(map)),
  'Moran, permutation': (map) => moranPermutation(share(map), row(map), run()),
  Geary: (map) => geary(share(map), row(map)),
  'Geary, permutation': (map) => gearyPermutation(share(map), row(map), run()),
  'local Moran': (map) => localMoran(share(map), row(map), run()),
  G: (map) => getisOrd(share(map), row(map), { ...run(), statistic: 'G' }),
  'G*': (map) => getisOrd(share(map), row(map), { ...run(), statistic: 'G*' }),
};
const OF_FOUND: Record<string, Test> = {
  'join counts': (map) => joinCounts(found(map), 2, row(map)),
  'join counts, permutation': (map) => joinCountsPermutation(found(map), 2, row(map), run()),
  'local join counts': (map) => localJoinCounts(found(map), row(map), run()),
};
const ALL = { ...OF_COUNTS, ...OF_VALUES, ...OF_FOUND };

const sixteen = (count: (i: number) => number) => Array.from({ length: 16 }, (_, i) => count(i));
const usual: Map = {
  resistant: sixteen((i) => i % 4),
  tested: sixteen((i) => 3 + (i % 5)),
  lists: lattice(4),
};
const halves = lattice(4).map((list, i) => list.filter((j) => Math.floor(i / 8) === Math.floor(j / 8)));

describe.each(Object.entries(ALL))('%s', (name, test) => {
  const isOfCounts = name in OF_COUNTS;

  it('answers an ordinary map and one in two pieces with finite numbers', () => {
    for (const map of [usual, { ...usual, lists: halves }]) expectFinite(test(map));
  });

  it.each([
    ['no place', { resistant: [], tested: [], lists: [] }],
    ['one place', { resistant: [1], tested: [3], lists: [[]] }],
    ['all alike', { ...usual, resistant: sixteen(() => 2), tested: sixteen(() => 4) }],
    ['none resistant', { ...usual, resistant: sixteen(() => 0) }],
    ['all resistant', { ...usual, resistant: usual.tested }],
    ['no neighbours at all', { ...usual, lists: usual.lists.map(() => []) }],
  ] as const)('answers “%s” with a typed error or with finite numbers', (_, map) => {
    expectAnswerOrRefusal(() => test(map as Map));
  });

  it.each([
    ['NaN', { ...usual, resistant: sixteen((i) => (i === 3 ? Number.NaN : 1)) }],
    ['a negative count', { ...usual, resistant: sixteen((i) => (i === 3 ? -1 : 1)) }],
    ['more resistant than tested', { ...usual, resistant: sixteen((i) => (i === 3 ? 99 : 1)) }],
    ['nothing tested at a place', { ...usual, tested: sixteen((i) => (i === 3 ? 0 : 4)) }],
    ['one number too few', { ...usual, resistant: usual.resistant.slice(1) }],
  ])('does not take %s', (what, map) => {
    // A test of values sees only that one is no finite number; counts are checked where shares are made of them.
    const mustRefuse = isOfCounts ? !(name === 'scan' && what === 'nothing tested at a place') : false;
    if (mustRefuse) expect(() => test(map)).toThrow(StatsError);
    else expectAnswerOrRefusal(() => test(map));
  });
});

describe.each(['beta-binomial', 'exact local test', 'minimum p', 'scan'])('%s', (name) => {
  it('takes whole numbers alone', () => {
    const map = { ...usual, resistant: sixteen((i) => (i === 3 ? 0.5 : 1)) };
    expect(() => ALL[name]!(map)).toThrow(expect.objectContaining({ code: 'bad count' }));
  });
});

function expectAnswerOrRefusal(ask: () => unknown): void {
  let answer: unknown;
  try {
    answer = ask();
  } catch (error) {
    expect(error).toBeInstanceOf(StatsError);
    expect((error as StatsError).message).not.toMatch(/undefined|\[object/);
    return;
  }
  expectFinite(answer);
}

/** No NaN and no infinity in whatever it holds. */
function expectFinite(answer: unknown): void {
  if (typeof answer === 'number') expect(Number.isFinite(answer)).toBe(true);
  else if (ArrayBuffer.isView(answer) || Array.isArray(answer))
    for (const one of answer as Iterable<unknown>) expectFinite(one);
  else if (answer !== null && typeof answer === 'object')
    for (const one of Object.values(answer)) expectFinite(one);
}
