import { checkLengths, checkWholeCounts, StatsError } from '../errors';
import { normalQuantile } from '../normal';
import { twoSidedP } from '../two-sided-p';
import { type ConditionalMoments, conditionalMoments, type TrendStratum } from './conditional-likelihood';
import { newtonRoot } from './newton-root';

/** Counts of place × season, season last. */
export interface PlaceSeasonCounts {
  resistant: ArrayLike<number>;
  tested: ArrayLike<number>;
  /** One for each season, as 2019, 2020, 2022. */
  scores: ArrayLike<number>;
}

export interface StratifiedTrend {
  /** Factor by which the odds change with each unit of score, inside places: conditional maximum likelihood. */
  oddsRatio: number | null;
  /** Likelihood-ratio interval. */
  low: number | null;
  high: number | null;
  /** Σ score · (resistant − expected) inside places, and its exact variance given each place's margins. */
  excess: number;
  variance: number;
  /** Score test with that variance, samples independent: two-sided; null where nothing varies. */
  p: number | null;
  /** As p, with the variance from the scatter between places instead; null below 10 places. */
  robustP: number | null;
  /** As low and high, from the estimate ± z standard errors between places, on the log scale; null below 10 places. */
  robustLow: number | null;
  robustHigh: number | null;
  /** Places that carry a comparison: some but not all resistant, and tested in two seasons at least. */
  places: number;
  reason: 'nothing varies' | 'infinite' | 'zero' | null;
}

/**
 * Does the share rise, comparing each place with itself only? A logistic trend with a level of its own for each place,
 * which the conditional likelihood removes, so that neither new places nor uneven testing look like a change.
 *
 * @param level confidence of the interval, two-sided, 0.95 unless given
 * @policy Places that carry no comparison drop out. Supposes one slope for all; a slope that differs between places, or
 *   samples of one operation, leave the estimate but make p and interval too bold: the robust ones allow for both
 *   (measured on invented maps: see the tests). Where no place points to a fall (rise) the estimate is infinite (zero):
 *   null, `reason`, p stays.
 * @throws StatsError `bad count` (whole numbers); `bad argument` for lengths and scores
 * @source test: Mantel 1963, JASA 58:690–700; estimate: Breslow & Day 1980, Statistical Methods in Cancer Research I,
 *   section 7.2; variance between places: Boos 1992, American Statistician 46:327–333 (all from memory)
 * @cost O(Σ tested · resistant of a place) for each of about 20 evaluations
 */
export function stratifiedTrend(counts: PlaceSeasonCounts, level = 0.95): StratifiedTrend {
  const { strata, observed } = readStrata(counts);
  const test = scoreTest(strata, observed);
  const none = { ...test, oddsRatio: null, low: null, high: null, robustLow: null, robustHigh: null };
  if (strata.length === 0) return { ...none, reason: 'nothing varies' };
  const total = observed.reduce((sum, each) => sum + each, 0);
  // The score has no root, or none within reach, where all cases lie at one end.
  if (strata.every((stratum, k) => observed[k]! >= extremeSum(stratum, 1) - TIE)) {
    return { ...none, reason: 'infinite' };
  }
  if (strata.every((stratum, k) => observed[k]! <= extremeSum(stratum, -1) + TIE)) {
    return { ...none, reason: 'zero' };
  }
  const at = (slope: number) => addMoments(strata, slope);
  const step = 2 / rangeOf(counts.scores);
  const slope = newtonRoot(
    (x) => {
      const { mean, variance } = at(x);
      return { value: mean - total, slope: variance };
    },
    0,
    step,
  );
  const { logSum, variance } = at(slope);
  const best = slope * total - logSum;
  const z = normalQuantile((1 + level) / 2);
  // Twice the fall of the log likelihood, less what the level allows: it rises on both ways from the estimate.
  const limit = (way: 1 | -1) => {
    const fall = (x: number) => {
      const moments = at(slope + way * x);
      return {
        value: 2 * (best - ((slope + way * x) * total - moments.logSum)) - z * z,
        slope: 2 * way * (moments.mean - total),
      };
    };
    return Math.exp(slope + way * newtonRoot(fall, z / Math.sqrt(variance), 10 * step));
  };
  const reach = (z * errorBetween(strata, observed, slope)) / variance;
  const robust = strata.length >= FEWEST_PLACES;
  return {
    ...test,
    oddsRatio: Math.exp(slope),
    low: limit(-1),
    high: limit(1),
    robustLow: robust ? Math.exp(slope - reach) : null,
    robustHigh: robust ? Math.exp(slope + reach) : null,
    reason: null,
  };
}

/** Scores are counted from their mean: the slope stays, and exponents stay small. */
function readStrata({ resistant, tested, scores }: PlaceSeasonCounts) {
  checkLengths(resistant, tested, 'Resistant and tested');
  const seasons = scores.length;
  if (seasons === 0 || tested.length % seasons !== 0 || !Array.from(scores).every(Number.isFinite)) {
    throw new StatsError(
      'bad argument',
      `Got ${tested.length} cells and ${seasons} scores; expected place × season, and finite scores.`,
    );
  }
  const middle = Array.from(scores).reduce((sum, score) => sum + score, 0) / seasons;
  const strata: TrendStratum[] = [];
  const observed: number[] = [];
  for (let from = 0; from < tested.length; from += seasons) {
    const cells = Array.from({ length: seasons }, (_, t) => t).filter((t) => tested[from + t] !== 0);
    for (let t = 0; t < seasons; t += 1)
      checkWholeCounts(resistant[from + t]!, tested[from + t]!, `Cell ${from + t}`);
    const sumOver = (of: (t: number) => number) => cells.reduce((sum, t) => sum + of(t), 0);
    const cases = sumOver((t) => resistant[from + t]!);
    if (cases === 0 || cases === sumOver((t) => tested[from + t]!)) continue;
    if (new Set(cells.map((t) => scores[t])).size < 2) continue;
    strata.push({
      scores: Float64Array.from(cells, (t) => scores[t]! - middle),
      tested: Float64Array.from(cells, (t) => tested[from + t]!),
      cases,
    });
    observed.push(sumOver((t) => resistant[from + t]! * (scores[t]! - middle)));
  }
  return { strata, observed };
}

function scoreTest(strata: readonly TrendStratum[], observed: readonly number[]) {
  let excess = 0;
  let variance = 0;
  let squares = 0;
  strata.forEach(({ scores, tested, cases }, k) => {
    const size = tested.reduce((sum, n) => sum + n, 0);
    const mean = tested.reduce((sum, n, i) => sum + n * scores[i]!, 0) / size;
    const spread = tested.reduce((sum, n, i) => sum + n * (scores[i]! - mean) ** 2, 0);
    const own = observed[k]! - cases * mean;
    excess += own;
    squares += own * own;
    variance += (cases * (size - cases) * spread) / (size * (size - 1));
  });
  const places = strata.length;
  const between = places > 1 ? (squares * places) / (places - 1) : 0;
  return {
    excess,
    variance,
    p: places > 0 ? twoSidedP(excess / Math.sqrt(variance)) : null,
    robustP: places >= FEWEST_PLACES && between > 0 ? twoSidedP(excess / Math.sqrt(between)) : null,
    places,
  };
}

/** Standard deviation of the score at the estimate, from the scatter between places. */
function errorBetween(strata: readonly TrendStratum[], observed: readonly number[], slope: number): number {
  let squares = 0;
  strata.forEach((stratum, k) => {
    squares += (observed[k]! - conditionalMoments(stratum, slope).mean) ** 2;
  });
  return Math.sqrt((squares * strata.length) / (strata.length - 1));
}

/** The largest (way 1) or smallest (way −1) sum of scores that so many cases can have. */
function extremeSum({ scores, tested, cases }: TrendStratum, way: 1 | -1): number {
  const order = [...scores.keys()].sort((a, b) => way * (scores[b]! - scores[a]!));
  let left = cases;
  let sum = 0;
  for (const i of order) {
    const taken = Math.min(left, tested[i]!);
    sum += taken * scores[i]!;
    left -= taken;
  }
  return sum;
}

function addMoments(strata: readonly TrendStratum[], slope: number): ConditionalMoments {
  const sum = { logSum: 0, mean: 0, variance: 0 };
  for (const stratum of strata) {
    const own = conditionalMoments(stratum, slope);
    sum.logSum += own.logSum;
    sum.mean += own.mean;
    sum.variance += own.variance;
  }
  return sum;
}

function rangeOf(scores: ArrayLike<number>): number {
  const list = Array.from(scores);
  return Math.max(...list) - Math.min(...list);
}

const FEWEST_PLACES = 10;
const TIE = 1e-9;
