import { checkLengths, StatsError } from '../errors';
import { twoSidedP } from '../two-sided-p';

/** One entry for each season (or each season of each operation). */
export interface TrendCounts {
  resistant: ArrayLike<number>;
  tested: ArrayLike<number>;
  /** Season or dose, in any order; equal ones are added up. */
  scores: ArrayLike<number>;
}

export interface CochranArmitage {
  /** Σ score · (resistant − expected): above 0 where the share rises with the score. */
  excess: number;
  variance: number;
  z: number | null;
  chiSquare: number | null;
  /** Two-sided, from the normal approximation, in (0, 1]; null with `reason`. */
  p: number | null;
  reason: NoTrend | null;
}

export type NoTrend = 'nothing tested' | 'one score' | 'no cases' | 'all cases';

/**
 * Does the share rise or fall in a straight line with the score, all samples independent?
 *
 * @param form `N`: variance with the share's p (1 − p), as the score test of logistic regression; `N - 1`: that times
 *   N / (N − 1), which is the exact variance given all margins (Mantel) and makes the statistic (N − 1) r². Default `N`.
 * @policy Seasons without tests drop out. Where nothing can vary: z, p null and the reason.
 *   A trend in what is sent is no trend in fields: `stratifiedTrend` compares places with themselves, `clusteredTrend`
 *   allows for several samples of one operation.
 * @throws StatsError `bad count`; `bad argument` for lengths and scores
 * @source Cochran 1954, Biometrics 10:417–451; Armitage 1955, Biometrics 11:375–386; N − 1: Mantel 1963, JASA
 *   58:690–700 (all from memory)
 * @cost O(entries)
 */
export function cochranArmitage(counts: TrendCounts, form: 'N' | 'N - 1' = 'N'): CochranArmitage {
  const { size, cases, meanScore, spread, reason } = describeTrend(counts);
  let excess = 0;
  for (let i = 0; i < counts.scores.length; i += 1) {
    excess += (counts.scores[i]! - meanScore) * counts.resistant[i]!;
  }
  if (reason) return { excess: 0, variance: 0, z: null, chiSquare: null, p: null, reason };
  const share = cases / size;
  const variance = share * (1 - share) * spread * (form === 'N' ? 1 : size / (size - 1));
  const z = excess / Math.sqrt(variance);
  return { excess, variance, z, chiSquare: z * z, p: twoSidedP(z), reason: null };
}

export interface TrendDescription {
  /** Tested and resistant over all seasons. */
  size: number;
  cases: number;
  /** Mean score of the tested, and Σ tested · (score − mean)². */
  meanScore: number;
  spread: number;
  reason: NoTrend | null;
}

/** Checks the counts and adds them up. */
export function describeTrend({ resistant, tested, scores }: TrendCounts): TrendDescription {
  checkLengths(resistant, tested, 'Resistant and tested');
  checkLengths(tested, scores, 'Tested and scores');
  let size = 0;
  let cases = 0;
  let sum = 0;
  for (let i = 0; i < scores.length; i += 1) {
    checkEntry(resistant[i]!, tested[i]!, scores[i]!, i);
    size += tested[i]!;
    cases += resistant[i]!;
    sum += tested[i]! * scores[i]!;
  }
  if (size === 0) return { size, cases, meanScore: 0, spread: 0, reason: 'nothing tested' };
  const meanScore = sum / size;
  let spread = 0;
  const used = new Set<number>();
  for (let i = 0; i < scores.length; i += 1) {
    if (tested[i] === 0) continue;
    used.add(scores[i]!);
    spread += tested[i]! * (scores[i]! - meanScore) ** 2;
  }
  return { size, cases, meanScore, spread, reason: whyNone(used.size, cases, size) };
}

function checkEntry(resistant: number, tested: number, score: number, entry: number): void {
  if (!(resistant >= 0 && resistant <= tested && tested < Number.POSITIVE_INFINITY)) {
    throw new StatsError(
      'bad count',
      `Entry ${entry}: got ${resistant} of ${tested}; expected 0 ≤ resistant ≤ tested.`,
    );
  }
  if (!Number.isFinite(score)) {
    throw new StatsError('bad argument', `Entry ${entry}: got score ${score}; expected a finite number.`);
  }
}

function whyNone(scores: number, cases: number, size: number): NoTrend | null {
  if (scores < 2) return 'one score';
  if (cases === 0) return 'no cases';
  return cases === size ? 'all cases' : null;
}
