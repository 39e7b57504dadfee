import { risingRoot } from '../rising-root';

/** A place: its seasons' scores and tested (only those with tests), and its resistant over all seasons. */
export interface TrendStratum {
  scores: Float64Array;
  tested: Float64Array;
  cases: number;
}

export interface ConditionalMoments {
  /** Logarithm of Σ over all ways to choose the cases, of exp(slope · sum of their scores). */
  logSum: number;
  /** Of the sum of the cases' scores. */
  mean: number;
  variance: number;
}

/**
 * Given how many of a place's samples are cases, which seasons are they from, if the log odds rise by `slope` a season?
 *
 * The samples are taken as independent with log odds `level` + slope · score; given the number of cases the level drops
 * out, so it is set to where that number is most likely, and no chance gets too small for a double.
 *
 * @source the recursion of Gail, Lubin & Rubinstein 1981, Biometrika 68:703–707 (from memory), in probabilities
 * @cost O(tested · cases)
 */
export function conditionalMoments(
  { scores, tested, cases }: TrendStratum,
  slope: number,
): ConditionalMoments {
  const level = levelFor({ scores, tested, cases }, slope);
  const shares = scores.map((score) => 1 / (1 + Math.exp(-level - slope * score)));
  // Scores are counted from the cases' mean, so that the variance is no difference of large numbers.
  const centre = shares.reduce((sum, share, i) => sum + share * tested[i]! * scores[i]!, 0) / cases;
  const chance = new Float64Array(cases + 1);
  const first = new Float64Array(cases + 1);
  const second = new Float64Array(cases + 1);
  chance[0] = 1;
  let logSum = -level * cases;
  let placed = 0;
  scores.forEach((each, i) => {
    const score = each - centre;
    const yes = shares[i]!;
    const no = 1 - yes;
    // log (1 − share), right for shares near 1 too.
    logSum += tested[i]! * softPlus(level + slope * each);
    for (let sample = 0; sample < tested[i]!; sample += 1) {
      placed += 1;
      for (let x = Math.min(placed, cases); x > 0; x -= 1) {
        const before = chance[x - 1]!;
        const moment = first[x - 1]!;
        second[x] = no * second[x]! + yes * (second[x - 1]! + 2 * score * moment + score * score * before);
        first[x] = no * first[x]! + yes * (moment + score * before);
        chance[x] = no * chance[x]! + yes * before;
      }
      chance[0]! *= no;
    }
  });
  const mean = first[cases]! / chance[cases]!;
  return {
    logSum: logSum + Math.log(chance[cases]!),
    mean: mean + centre * cases,
    variance: Math.max(0, second[cases]! / chance[cases]! - mean * mean),
  };
}

/** The level at which as many cases are to be expected as there are. */
function levelFor({ scores, tested, cases }: TrendStratum, slope: number): number {
  const expected = (level: number) => {
    let sum = 0;
    for (let i = 0; i < scores.length; i += 1) {
      sum += tested[i]! / (1 + Math.exp(-level - slope * scores[i]!));
    }
    return sum;
  };
  return risingRoot(expected, cases);
}

/** log (1 + exp x) */
function softPlus(x: number): number {
  return x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x));
}
