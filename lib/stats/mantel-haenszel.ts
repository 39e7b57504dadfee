import { checkLengths, StatsError } from './errors';
import { normalQuantile } from './normal';
import { twoSidedP } from './two-sided-p';

/** Cases of tested in two groups, one entry for each stratum. */
export interface StratifiedCounts {
  cases: ArrayLike<number>;
  tested: ArrayLike<number>;
  referenceCases: ArrayLike<number>;
  referenceTested: ArrayLike<number>;
}

export interface MantelHaenszel {
  /** Common odds ratio, group against reference; null where one of its two sums is zero (see `reason`). */
  oddsRatio: number | null;
  low: number | null;
  high: number | null;
  /** Mantel–Haenszel test without continuity correction, one degree of freedom; null where nothing varies. */
  chiSquare: number | null;
  p: number | null;
  reason: 'no stratum with both' | 'no cases' | 'all cases' | 'no discordance' | 'zero' | 'infinite' | null;
}

/**
 * Odds of a case in a group against a reference, compared inside strata only, so that who was looked at more often
 * in which stratum does not matter.
 *
 * @param level confidence of the interval, two-sided, 0.95 unless given
 * @policy Strata where one of the groups is empty carry no comparison and drop out of all sums.
 * @throws StatsError `bad count`, `bad argument` where lengths differ
 * @source Mantel & Haenszel 1959, JNCI 22:719–748; interval: Robins, Breslow & Greenland 1986, Biometrics 42:311–323,
 *   doi 10.2307/2531052
 */
export function mantelHaenszel(counts: StratifiedCounts, level = 0.95): MantelHaenszel {
  const sums = addStrata(counts);
  const { forGroup, forReference, strata } = sums;
  const testable = sums.variance > 0;
  const chiSquare = testable ? (sums.observed - sums.expected) ** 2 / sums.variance : null;
  const p = chiSquare === null ? null : twoSidedP(Math.sqrt(chiSquare));
  if (strata === 0 || forGroup === 0 || forReference === 0) {
    return { oddsRatio: null, low: null, high: null, chiSquare, p, reason: whyNone(sums) };
  }
  const logVariance =
    sums.pr / (2 * forGroup ** 2) +
    sums.psqr / (2 * forGroup * forReference) +
    sums.qs / (2 * forReference ** 2);
  const oddsRatio = forGroup / forReference;
  const reach = Math.exp(normalQuantile((1 + level) / 2) * Math.sqrt(logVariance));
  return { oddsRatio, low: oddsRatio / reach, high: oddsRatio * reach, chiSquare, p, reason: null };
}

interface Sums {
  strata: number;
  cases: number;
  noncases: number;
  /** Σ ad / n and Σ bc / n, in the notation of the sources. */
  forGroup: number;
  forReference: number;
  pr: number;
  psqr: number;
  qs: number;
  observed: number;
  expected: number;
  variance: number;
}

/** Throws `bad argument` unless group and reference have the same strata. */
export function checkStrata({ cases, tested, referenceCases, referenceTested }: StratifiedCounts): void {
  checkLengths(cases, tested, 'Cases and tested');
  checkLengths(referenceCases, referenceTested, 'Cases and tested of the reference');
  checkLengths(cases, referenceCases, 'Group and reference');
}

function addStrata({ cases, tested, referenceCases, referenceTested }: StratifiedCounts): Sums {
  checkStrata({ cases, tested, referenceCases, referenceTested });
  const sums: Sums = {
    strata: 0,
    cases: 0,
    noncases: 0,
    forGroup: 0,
    forReference: 0,
    pr: 0,
    psqr: 0,
    qs: 0,
    observed: 0,
    expected: 0,
    variance: 0,
  };
  for (let i = 0; i < cases.length; i += 1) {
    checkStratum(cases[i]!, tested[i]!, i);
    checkStratum(referenceCases[i]!, referenceTested[i]!, i);
    if (tested[i] === 0 || referenceTested[i] === 0) continue;
    addStratum(sums, cases[i]!, tested[i]!, referenceCases[i]!, referenceTested[i]!);
  }
  return sums;
}

function addStratum(sums: Sums, a: number, groupSize: number, c: number, referenceSize: number): void {
  const n = groupSize + referenceSize;
  const b = groupSize - a;
  const d = referenceSize - c;
  const r = (a * d) / n;
  const s = (b * c) / n;
  sums.strata += 1;
  sums.cases += a + c;
  sums.noncases += b + d;
  sums.forGroup += r;
  sums.forReference += s;
  sums.pr += ((a + d) / n) * r;
  sums.psqr += ((a + d) / n) * s + ((b + c) / n) * r;
  sums.qs += ((b + c) / n) * s;
  sums.observed += a;
  sums.expected += (groupSize * (a + c)) / n;
  sums.variance += (groupSize * referenceSize * (a + c) * (b + d)) / (n * n * (n - 1));
}

function whyNone(sums: Sums): MantelHaenszel['reason'] {
  if (sums.strata === 0) return 'no stratum with both';
  if (sums.cases === 0) return 'no cases';
  if (sums.noncases === 0) return 'all cases';
  if (sums.forGroup > 0) return 'infinite';
  if (sums.forReference > 0) return 'zero';
  return 'no discordance';
}

function checkStratum(cases: number, tested: number, stratum: number): void {
  if (!(cases >= 0 && cases <= tested && tested < Number.POSITIVE_INFINITY)) {
    throw new StatsError(
      'bad count',
      `Stratum ${stratum}: got ${cases} of ${tested}; expected 0 ≤ cases ≤ tested.`,
    );
  }
}
