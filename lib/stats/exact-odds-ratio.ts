import { checkWholeCounts, StatsError } from './errors';
import { checkStrata, type StratifiedCounts } from './mantel-haenszel';
import { risingRoot } from './rising-root';

export interface ExactOddsRatio {
  /** Conditional maximum likelihood, group against reference; 0 where the count could not be lower, else null as `reason` says. */
  oddsRatio: number | null;
  /** Limits of the exact interval; null with `oddsRatio` null for the side that has no end. */
  low: number | null;
  high: number | null;
  /** Chance, without any difference, of so many cases in the group or more; or fewer; twice the smaller, at most 1. */
  pGreater: number;
  pLess: number;
  p: number;
  /** Cases in the group over all strata that carry a comparison, and how many were to be expected. */
  observed: number;
  expected: number;
  /** Strata in which the margins leave a choice. */
  strata: number;
  reason: 'nothing varies' | 'infinite' | null;
}

/**
 * Odds of a case in a group against a reference, inside strata, without approximation: given the margins of each
 * stratum's 2 × 2 table the group's cases are a sum of hypergeometric counts. One stratum is Fisher's test.
 *
 * @param counts one entry for each stratum, whole numbers
 * @param level confidence of the interval, two-sided (each tail half of the rest), 0.95 unless given
 * @param midP counts the observed sum by half in p and interval: no longer sure to hold the level, near it on average
 * @returns p in (0, 1]
 * @policy Strata whose margins allow one table only (one group empty, all or none cases) say nothing and drop out. With
 *   none left: p = 1, no odds ratio, `nothing varies`. At the highest sum possible the estimate is infinite: `oddsRatio`
 *   and `high` null, `low` given. Supposes one odds ratio in all strata.
 * @throws StatsError `bad count`; `bad argument` where lengths differ or the level is not between 0 and 1
 * @source Gart 1970, Biometrika 57:471–475; Mehta, Patel & Gray 1985, JASA 80:969–973 (both from memory); the sum by
 *   convolution of the strata's distributions
 * @cost O(range of the sum × sum of the strata's ranges)
 * @example exactOddsRatio({ cases: [3], tested: [4], referenceCases: [1], referenceTested: [4] }).oddsRatio; // 6.408
 */
export function exactOddsRatio(
  counts: StratifiedCounts,
  level = 0.95,
  { midP = false }: { midP?: boolean } = {},
): ExactOddsRatio {
  if (!(level > 0 && level < 1)) throw new StatsError('bad argument', `Got level ${level}; expected 0 … 1.`);
  const sum = sumOfStrata(counts);
  const { observed, lowest, logWeights, strata } = sum;
  const at = observed - lowest;
  const last = logWeights.length - 1;
  const own = midP ? 0.5 : 1;
  const none = tilted(logWeights, 0, at);
  const pGreater = Math.max(Number.MIN_VALUE, Math.min(1, none.above + own * none.at));
  const pLess = Math.max(Number.MIN_VALUE, Math.min(1, none.below + own * none.at));
  const test = {
    pGreater,
    pLess,
    p: Math.min(1, 2 * Math.min(pGreater, pLess)),
    observed,
    expected: lowest + none.mean,
    strata,
  };
  if (strata === 0)
    return { ...test, p: 1, oddsRatio: null, low: null, high: null, reason: 'nothing varies' };
  const tail = (1 - level) / 2;
  const atLeast = (log: number) => own * tilted(logWeights, log, at).at + tilted(logWeights, log, at).above;
  const notAtMost = (log: number) =>
    (1 - own) * tilted(logWeights, log, at).at + tilted(logWeights, log, at).above;
  const low = at === 0 ? 0 : Math.exp(risingRoot(atLeast, tail));
  if (at === last) return { ...test, oddsRatio: null, low, high: null, reason: 'infinite' };
  const high = Math.exp(risingRoot(notAtMost, 1 - tail));
  const mean = (log: number) => tilted(logWeights, log, at).mean;
  return { ...test, oddsRatio: at === 0 ? 0 : Math.exp(risingRoot(mean, at)), low, high, reason: null };
}

interface SumOfStrata {
  observed: number;
  /** The lowest sum that the margins allow; entry k of `logWeights` belongs to `lowest + k`. */
  lowest: number;
  /** Logarithms of numbers in proportion to the chances without difference. */
  logWeights: Float64Array;
  strata: number;
}

function sumOfStrata({ cases, tested, referenceCases, referenceTested }: StratifiedCounts): SumOfStrata {
  checkStrata({ cases, tested, referenceCases, referenceTested });
  const sum: SumOfStrata = { observed: 0, lowest: 0, logWeights: new Float64Array(1), strata: 0 };
  for (let i = 0; i < cases.length; i += 1) {
    checkWholeCounts(cases[i]!, tested[i]!, `Stratum ${i}`);
    checkWholeCounts(referenceCases[i]!, referenceTested[i]!, `Stratum ${i}`);
    const marked = cases[i]! + referenceCases[i]!;
    const lowest = Math.max(0, marked - referenceTested[i]!);
    const highest = Math.min(tested[i]!, marked);
    if (lowest === highest) continue;
    sum.observed += cases[i]!;
    sum.lowest += lowest;
    sum.strata += 1;
    const own = new Float64Array(highest - lowest + 1);
    for (let x = lowest; x < highest; x += 1) {
      const ratio = ((marked - x) * (tested[i]! - x)) / ((x + 1) * (referenceTested[i]! - marked + x + 1));
      own[x + 1 - lowest] = own[x - lowest]! + Math.log(ratio);
    }
    sum.logWeights = convolve(sum.logWeights, own);
  }
  return sum;
}

function convolve(a: Float64Array, b: Float64Array): Float64Array {
  const product = new Float64Array(a.length + b.length - 1);
  for (let k = 0; k < product.length; k += 1) {
    const from = Math.max(0, k - b.length + 1);
    const to = Math.min(a.length - 1, k);
    let largest = Number.NEGATIVE_INFINITY;
    for (let i = from; i <= to; i += 1) largest = Math.max(largest, a[i]! + b[k - i]!);
    let sum = 0;
    for (let i = from; i <= to; i += 1) sum += Math.exp(a[i]! + b[k - i]! - largest);
    product[k] = largest + Math.log(sum);
  }
  return product;
}

/** Chances below, at and above entry `at`, and the mean entry, when the logarithm of the odds ratio is `log`. */
function tilted(logWeights: Float64Array, log: number, at: number) {
  let largest = Number.NEGATIVE_INFINITY;
  for (let k = 0; k < logWeights.length; k += 1) largest = Math.max(largest, logWeights[k]! + k * log);
  let below = 0;
  let own = 0;
  let above = 0;
  let moment = 0;
  for (let k = 0; k < logWeights.length; k += 1) {
    const weight = Math.exp(logWeights[k]! + k * log - largest);
    moment += k * weight;
    if (k < at) below += weight;
    else if (k > at) above += weight;
    else own = weight;
  }
  const all = below + own + above;
  return { below: below / all, at: own / all, above: above / all, mean: moment / all };
}
