import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { constantRisk } from '@/lib/stats/constant-risk';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { whereDefined } from '@/lib/stats/errors';
import { gearyPermutation } from '@/lib/stats/geary';
import { getisOrd } from '@/lib/stats/getis-ord';
import { joinCountsPermutation } from '@/lib/stats/join-counts';
import { localHypergeometric } from '@/lib/stats/local-hypergeometric';
import { localMoran } from '@/lib/stats/local-moran';
import { minimumP } from '@/lib/stats/minimum-p';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import type { Random } from '@/lib/stats/random';
import { permutationsNeeded } from '@/lib/stats/resolution';
import { scanCircles } from '@/lib/stats/scan/scan-circles';
import type { EffortLine } from './effort-lines';

const ORDERS = 499;

/** The columns of the document. `isWhole`: one p for the map, which should be even where nothing is there. */
export const TESTS: readonly { name: string; about: string; isWhole: boolean }[] = [
  { name: 'EB Moran', isWhole: true, about: 'EB-standardised Moran index (binomial form), permutation' },
  { name: 'constant risk', isWhole: true, about: 'Monte Carlo under one share for all' },
  { name: 'raw Moran', isWhole: true, about: 'Moran index of the raw shares, permutation: the warning' },
  { name: 'Geary', isWhole: true, about: 'Geary ratio of the EB-standardised shares, permutation' },
  {
    name: 'joins',
    isWhole: true,
    about: 'join counts of found and not found, permutation: blind to how much was tested',
  },
  { name: 'scan', isWhole: true, about: 'Bernoulli scan over circles of at most half of the tested' },
  {
    name: 'exact local',
    isWhole: false,
    about: 'a place and its neighbours, hypergeometric; Benjamini–Hochberg',
  },
  { name: 'minimum p', isWhole: false, about: 'the same, by the smallest p of maps under one share' },
  {
    name: 'local Moran',
    isWhole: false,
    about: 'of EB-standardised shares, conditional permutation; Benjamini–Hochberg',
  },
  {
    name: 'G*',
    isWhole: false,
    about: 'Getis–Ord G* of EB-standardised shares, permutation; Benjamini–Hochberg',
  },
  {
    name: 'verdict',
    isWhole: false,
    about: 'EB Moran, exact local and scan together, by the smallest p and Holm: what a reader is told',
  },
];

/** p of each test for one map (the smallest adjusted one where a test has many), NaN where it has no answer. */
export function askTests(line: EffortLine, resistant: Int32Array, random: Random): Map<string, number> {
  const { tested, row, binary, lon, lat } = line;
  const found = Array.from(resistant, (count) => Number(count > 0));
  const run = { permutations: ORDERS, random };
  // Enough that one place can be flagged by itself.
  const local = { permutations: permutationsNeeded(tested.length, 0.05), random };
  const z = () => ebStandardise(resistant, tested, 'binomial').z;
  const least = (p: Float64Array) => Math.min(...p);
  const shares = Array.from(resistant, (count, i) => count / tested[i]!);
  const where = { x: lon, y: lat, metric: 'great circle' as const };
  const scan = () => {
    const { limits } = scanCircles(where, { tested, resistant }, 'bernoulli', {
      ...{ seed: random.next(), replicates: ORDERS, shares: [0.5], most: 1 },
    });
    return limits[0]!.windows[0]?.p ?? 1;
  };
  const p = new Map<string, number>([
    ['EB Moran', answer(() => moranPermutation(z(), row, run).pGreater)],
    [
      'constant risk',
      answer(() => constantRisk(resistant, tested, row, { replicates: ORDERS, random }).pGreater),
    ],
    ['raw Moran', answer(() => moranPermutation(shares, row, run).pGreater)],
    ['Geary', answer(() => gearyPermutation(z(), row, run).pLess)],
    ['joins', answer(() => joinCountsPermutation(found, 2, binary, run).same[1]!.pGreater)],
    ['scan', answer(scan)],
    ['exact local', answer(() => least(benjaminiHochberg(localHypergeometric(resistant, tested, row).p)))],
    [
      'minimum p',
      answer(() => least(minimumP(resistant, tested, row, { replicates: ORDERS, random }).adjusted)),
    ],
    ['local Moran', answer(() => least(benjaminiHochberg(localMoran(z(), row, local).p)))],
    ['G*', answer(() => least(benjaminiHochberg(getisOrd(z(), binary, { ...local, statistic: 'G*' }).p)))],
  ]);
  const asked = [p.get('EB Moran')!, p.get('exact local')!, p.get('scan')!];
  return p.set('verdict', asked.some(Number.isNaN) ? Number.NaN : Math.min(1, 3 * Math.min(...asked)));
}

function answer(test: () => number): number {
  return whereDefined(['constant'], test) ?? Number.NaN;
}
