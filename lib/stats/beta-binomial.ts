import { checkCounts, checkLengths, checkWholeCounts, StatsError } from './errors';
import { normalCdf } from './normal';

export interface BetaBinomial {
  /** Mean share of the places, 0 … 1. */
  mean: number;
  /** Likeness of two populations of one place, 0 … 1: 0 where places differ no more than counting explains. */
  correlation: number;
  /** From the observed information; null for a value on its bound (0 or 1). */
  meanError: number | null;
  correlationError: number | null;
  logLikelihood: number;
  /** Chance of so much difference between places where all have one share (likelihood ratio; half of it lies at 0). */
  p: number;
  /** For each place its expected share given its counts: drawn towards the mean, the more so the fewer were tested. */
  estimate: Float64Array;
}

/**
 * Shares that vary between places as a beta distribution, fitted by maximum likelihood, and each place's expected share
 * (empirical Bayes). Estimates are for looking at: never test them as if they were data.
 *
 * @param cases for each place a whole number of 0 … tested
 * @param tested for each place a whole number > 0
 * @policy With one tested at each place nothing is known of the correlation: it is 0, as where the likelihood falls from
 *   there. None or all resistant: mean 0 or 1 and correlation 0. The likelihood leaves out the binomial coefficients.
 * @throws StatsError `too few` without a place, `nothing tested`, `bad count`, `bad argument` where lengths differ
 * @source Griffiths 1973, Biometrics 29:637–648, doi 10.2307/2529131 (likelihood by counts of counts); the null
 *   distribution at the bound: Self & Liang 1987, JASA 82:605–610 (both from memory; checked against `scipy`)
 * @cost O(places + largest tested) for each of some 60 steps
 */
export function betaBinomial(cases: ArrayLike<number>, tested: ArrayLike<number>): BetaBinomial {
  const tallies = tally(cases, tested);
  const { totalCases, totalTested } = tallies;
  if (totalCases === 0 || totalCases === totalTested) {
    const mean = totalCases / totalTested;
    const estimate = new Float64Array(cases.length).fill(mean);
    const none = { meanError: null, correlationError: null };
    return { mean, correlation: 0, ...none, logLikelihood: 0, p: 1, estimate };
  }
  const none = along(tallies, 0);
  const spread = bestSpread(tallies);
  const best = along(tallies, spread);
  const correlation = spread / (1 + spread);
  const ratio = Math.max(0, 2 * (best.logLikelihood - none.logLikelihood));
  return {
    mean: best.mean,
    correlation,
    ...errorsOf(tallies, best.mean, spread),
    logLikelihood: best.logLikelihood,
    p: spread === 0 ? 1 : normalCdf(-Math.sqrt(ratio)),
    estimate: Float64Array.from(
      cases,
      (count, i) => (best.mean + spread * count) / (1 + spread * tested[i]!),
    ),
  };
}

/**
 * The likelihood is Σ_j R_j log(μ + jγ) + S_j log(1 − μ + jγ) − T_j log(1 + jγ), with R_j the places that have more than
 * j cases, S_j more than j non-cases, T_j more than j tested, and the spread γ = ρ / (1 − ρ) = 1 / (α + β).
 */
interface Tallies {
  cases: Float64Array;
  others: Float64Array;
  tested: Float64Array;
  totalCases: number;
  totalTested: number;
}

function tally(cases: ArrayLike<number>, tested: ArrayLike<number>): Tallies {
  checkLengths(cases, tested, 'Cases and tested');
  if (cases.length === 0) throw new StatsError('too few', 'No place was given; expected at least one.');
  let most = 0;
  let totalCases = 0;
  let totalTested = 0;
  for (let i = 0; i < cases.length; i += 1) {
    checkWholeCounts(cases[i]!, tested[i]!, `Place ${i}`);
    checkCounts(cases[i]!, tested[i]!, `Place ${i}`);
    most = Math.max(most, tested[i]!);
    totalCases += cases[i]!;
    totalTested += tested[i]!;
  }
  const moreThan = (count: (i: number) => number) => {
    const tallied = new Float64Array(most);
    for (let i = 0; i < cases.length; i += 1) if (count(i) > 0) tallied[count(i) - 1]! += 1;
    for (let j = most - 2; j >= 0; j -= 1) tallied[j]! += tallied[j + 1]!;
    return tallied;
  };
  return {
    cases: moreThan((i) => cases[i]!),
    others: moreThan((i) => tested[i]! - cases[i]!),
    tested: moreThan((i) => tested[i]!),
    totalCases,
    totalTested,
  };
}

/** The best mean for a given spread, and its likelihood: the slope falls with the mean, so it is halved to the last bit. */
function along(tallies: Tallies, spread: number): { mean: number; logLikelihood: number } {
  let low = 0;
  let high = 1;
  for (let middle = 0.5; middle > low && middle < high; middle = (low + high) / 2) {
    if (slope(tallies, middle, spread) > 0) low = middle;
    else high = middle;
  }
  const mean = (low + high) / 2;
  return { mean, logLikelihood: logLikelihood(tallies, mean, spread) };
}

function slope({ cases, others }: Tallies, mean: number, spread: number): number {
  let sum = 0;
  for (let j = 0; j < cases.length; j += 1) {
    if (cases[j]! > 0) sum += cases[j]! / (mean + j * spread);
    if (others[j]! > 0) sum -= others[j]! / (1 - mean + j * spread);
  }
  return sum;
}

function logLikelihood({ cases, others, tested }: Tallies, mean: number, spread: number): number {
  let sum = 0;
  for (let j = 0; j < tested.length; j += 1) {
    if (cases[j]! > 0) sum += cases[j]! * Math.log(mean + j * spread);
    if (others[j]! > 0) sum += others[j]! * Math.log(1 - mean + j * spread);
    sum -= tested[j]! * Math.log1p(j * spread);
  }
  return sum;
}

/** Correlations beyond this are one: every place all or nothing. */
const LARGEST_SPREAD = 1e6;

/** The spread of largest likelihood along the best means: by golden section on its logarithm, or 0 at the bound. */
function bestSpread(tallies: Tallies): number {
  const height = (logSpread: number) => along(tallies, Math.exp(logSpread)).logLikelihood;
  const grid = Array.from(
    { length: 31 },
    (_, k) => Math.log(1e-6) + (k / 30) * Math.log(LARGEST_SPREAD / 1e-6),
  );
  const heights = grid.map(height);
  const top = heights.indexOf(Math.max(...heights));
  let low = grid[Math.max(0, top - 1)]!;
  let high = grid[Math.min(30, top + 1)]!;
  const golden = (Math.sqrt(5) - 1) / 2;
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [atLeft, atRight] = [height(left), height(right)];
  while (high - low > 1e-9) {
    if (atLeft >= atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - golden * (high - low);
      atLeft = height(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + golden * (high - low);
      atRight = height(right);
    }
  }
  const spread = Math.exp((low + high) / 2);
  const gain = height((low + high) / 2) - along(tallies, 0).logLikelihood;
  return gain > 1e-9 ? spread : 0;
}

/** From the negative second derivatives by mean and spread, carried over to the correlation. */
function errorsOf(
  { cases, others, tested }: Tallies,
  mean: number,
  spread: number,
): Pick<BetaBinomial, 'meanError' | 'correlationError'> {
  let [means, both, spreads] = [0, 0, 0];
  for (let j = 0; j < tested.length; j += 1) {
    const here = cases[j]! > 0 ? cases[j]! / (mean + j * spread) ** 2 : 0;
    const there = others[j]! > 0 ? others[j]! / (1 - mean + j * spread) ** 2 : 0;
    means += here + there;
    both += j * (here - there);
    spreads += j * j * (here + there - tested[j]! / (1 + j * spread) ** 2);
  }
  const determinant = means * spreads - both * both;
  if (spread === 0 || !(determinant > 0)) return { meanError: 1 / Math.sqrt(means), correlationError: null };
  return {
    meanError: Math.sqrt(spreads / determinant),
    correlationError: Math.sqrt(means / determinant) / (1 + spread) ** 2,
  };
}
