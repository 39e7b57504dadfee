import { loadRegion } from '@/lib/geography/region';
import { states } from '@/lib/geography/states';
import { benjaminiHochberg } from '@/lib/stats/benjamini-hochberg';
import { ebStandardise } from '@/lib/stats/eb-standardise';
import { gearyPermutation } from '@/lib/stats/geary';
import { getisOrd } from '@/lib/stats/getis-ord';
import { joinCountsPermutation } from '@/lib/stats/join-counts';
import { localHypergeometric } from '@/lib/stats/local-hypergeometric';
import { localMoran } from '@/lib/stats/local-moran';
import { minimumP } from '@/lib/stats/minimum-p';
import { moranPermutation } from '@/lib/stats/moran-permutation';
import { Random } from '@/lib/stats/random';
import { buildWeights } from '@/lib/stats/weights';
import counties from '../../tests/reference/stats/scan-counties.json';
import type { Steps } from '../support/steps';

const RUNS = 7;
const ISLANDS_OFF = ['AK', 'HI', 'AS', 'GU', 'MP', 'PR', 'VI'];

/**
 * The tests over all counties on one thread: best and median of seven runs, beside the time that a reference library
 * took (R 4.2.2, spdep 1.2-7, one core, one run; another machine, so the ratio is a rough one). Its local tests draw
 * with replacement, which is cheaper; and its graph names 16 counties as their own neighbours, so its indices differ from
 * ours in the third digit.
 */
export async function benchTests(steps: Steps): Promise<void> {
  const { tested, resistant } = counties;
  const lists = mainlandNeighbours();
  const row = buildWeights(lists, 'row');
  const binary = buildWeights(lists, 'binary');
  const shares = tested.map((count, i) => resistant[i]! / count);
  const found = resistant.map((count) => Number(count > 0));
  const run = (permutations: number) => ({ permutations, random: new Random(1) });
  const standardised = () => ebStandardise(resistant, tested, 'poisson').z;

  await repeat(steps, 'global Moran, 9,999 orders', 7.7, () => {
    const { index, pGreater } = moranPermutation(shares, row, run(9_999));
    return `index ${index.toFixed(6)}, p ${pGreater}`;
  });
  await repeat(steps, 'EB-standardised Moran, 9,999 orders', 6.97, () => {
    const { index, pGreater } = moranPermutation(standardised(), row, run(9_999));
    return `index ${index.toFixed(6)}, p ${pGreater}`;
  });
  await repeat(steps, 'join counts, 9,999 orders', 11.02, () => {
    const { same } = joinCountsPermutation(found, 2, binary, run(9_999));
    return `${same[1]!.joins} joins, p ${same[1]!.pGreater}`;
  });
  await repeat(steps, 'Geary, 9,999 orders', null, () => {
    const { ratio, pLess } = gearyPermutation(shares, row, run(9_999));
    return `ratio ${ratio.toFixed(6)}, p ${pLess}`;
  });
  await repeat(steps, 'local Moran, 9,999 draws', 13, () => {
    const { index, p } = localMoran(shares, row, run(9_999));
    return `sum ${index.reduce((a, b) => a + b).toFixed(4)}, ${flagged(p)}`;
  });
  await repeat(steps, 'local Moran, 99,999 draws', null, () =>
    flagged(localMoran(shares, row, run(99_999)).p),
  );
  for (const [statistic, reference] of [
    ['G', 13.08],
    ['G*', null],
  ] as const) {
    await repeat(steps, `Getis–Ord ${statistic}, 9,999 draws`, reference, () =>
      flagged(getisOrd(shares, binary, { ...run(9_999), statistic }).p),
    );
  }
  await repeat(steps, 'exact local test', null, () => flagged(localHypergeometric(resistant, tested, row).p));
  await repeat(steps, 'exact local test, minimum p of 999 maps', null, () => {
    const { adjusted } = minimumP(resistant, tested, row, { replicates: 999, random: new Random(1) });
    return `${adjusted.filter((p) => p <= 0.05).length} flagged`;
  });
}

/** The 3,106 counties of the 48 states and Washington, D.C., that share a line with another one, ascending by FIPS. */
function mainlandNeighbours(): number[][] {
  const codes = states()
    .map(({ code }) => code)
    .filter((code) => !ISLANDS_OFF.includes(code));
  const { neighbours } = loadRegion({ name: 'mainland', states: codes });
  const kept = neighbours.flatMap((list, i) => (list.length > 0 ? [i] : []));
  const now = new Map(kept.map((i, at) => [i, at]));
  return kept.map((i) => neighbours[i]!.map((j) => now.get(j)!));
}

function flagged(p: Float64Array): string {
  return `${benjaminiHochberg(p).filter((adjusted) => adjusted <= 0.05).length} flagged at 5 % false discoveries`;
}

async function repeat(
  steps: Steps,
  name: string,
  reference: number | null,
  work: () => string,
): Promise<void> {
  await steps.run(`${name}, ${RUNS} runs`, (detail) => {
    const times: number[] = [];
    let result = '';
    for (let i = 0; i < RUNS; i += 1) {
      const start = performance.now();
      result = work();
      times.push(performance.now() - start);
    }
    times.sort((a, b) => a - b);
    const middle = times[Math.floor(RUNS / 2)]!;
    const beside =
      reference === null
        ? ''
        : `, reference ${reference} s (${Math.round((1000 * reference) / middle)} times)`;
    detail(`best ${times[0]!.toFixed(1)} ms, median ${middle.toFixed(1)} ms${beside}: ${result}`);
  });
}
