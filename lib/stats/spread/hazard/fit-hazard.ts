import { StatsError } from '../../errors';
import { normalQuantile } from '../../normal';
import { invertPositive, solvePositive } from '../../optimise/linear';
import { minimise } from '../../optimise/minimise';
import { twoSidedP } from '../../two-sided-p';
import type { AtRisk } from '../types';
import { type HazardDesign, hazardDesign } from './design';
import { addRow, addSquare, hazardLikelihood, mirror } from './likelihood';
import type { HazardEstimate, HazardFit, HazardSeasons, HazardTerm, NoHazard } from './types';

/**
 * How does the chance that a clean place is found new depend on its exposure to earlier finds? Discrete-time hazard with
 * a complementary log-log link and the logarithm of the number tested as offset: as if each population tested had the
 * same small chance.
 *
 * @param panel `atRisk(counts)`; `seasons` of the counts
 * @param terms as `anyFoundNeighbour`, `foundNeighbourShare`, `nearestFoundDistance`, one value for each row
 * @param options `seasons` (`effects` unless given), `level` of intervals, 0.95 unless given
 * @returns hazard ratios with standard errors clustered by place: sandwich with the expected information as bread and the
 *   factor G / (G − 1), G places; or the reason why there is no fit, never NaN
 * @policy Rows with an infinite exposure are left out; so are, with season effects, seasons in which none or all of the
 *   rows are new. `separated`: an effect that grows without end (own rule: beyond a hazard ratio of e^20 over the range of
 *   its term, or still by e^0.001 a step where the likelihood gains no more). A hazard ratio compares places; it is no proof
 *   that one county gave it to the other.
 * @throws StatsError `bad argument` where lengths differ, a value is NaN, no term is given
 * @source Prentice & Gloeckler 1978, Biometrics 34:57–67; clustering: Liang & Zeger 1986, Biometrika 73:13–22 (both from
 *   memory)
 * @cost about eight passes over the rows, each O(rows · terms²)
 */
export function fitHazard(
  panel: AtRisk,
  seasons: ArrayLike<number>,
  terms: readonly HazardTerm[],
  { seasons: kind = 'effects', level = 0.95 }: { seasons?: HazardSeasons; level?: number } = {},
): HazardFit | NoHazard {
  if (terms.length === 0) throw new StatsError('bad argument', 'Got no term; expected an exposure.');
  const design = hazardDesign(panel, seasons, terms, kind);
  if ('kind' in design) return design;
  const likelihood = hazardLikelihood(design);
  const { evaluate, size } = likelihood;
  const reach = design.columns.map((column) => MOST / (Math.max(...column) - Math.min(...column)));
  const bound = (sign: number, level: number) =>
    Float64Array.from({ length: size }, (_, k) => (k < reach.length ? sign * reach[k]! : level));
  const { low, high } = { low: bound(-1, -LOWEST_LEVEL), high: bound(1, LOWEST_LEVEL) };
  const start = startingLevels(design, size);
  const dependent = none('dependent', 'Terms follow from one another. Leave one out.');
  const inverseAt = (theta: Float64Array) =>
    invertPositive(expectedInformation(design, likelihood, theta), size, 1e-10);
  if (inverseAt(start) === null) return dependent;
  const found = minimise({ size, evaluate, low, high, negligible: 1e-16 }, start);
  const endless = found.atBound.some((held) => held === 1)
    ? found.atBound.indexOf(1)
    : found.converged
      ? stillMoving(design, likelihood, found.theta)
      : -1;
  if (endless !== -1) {
    const name = design.names[endless] ?? 'the level of a season';
    return none('separated', `“${name}” tells new places from others without error: its effect has no end.`);
  }
  if (!found.converged) return none('no convergence', 'No best fit was reached. Use fewer terms.');
  const inverse = inverseAt(found.theta);
  if (inverse === null) return dependent;
  const { covariance, places } = clustered(design, likelihood, found.theta, inverse);
  const z = normalQuantile((1 + level) / 2);
  return {
    kind: 'fit',
    estimates: design.names.map((name, k) => estimate(name, k)),
    seasons: kind,
    ...{ theta: found.theta, covariance, places },
    ...{ levelSeasons: design.levelSeasons, levelRows: design.levelRows, firstSeason: design.firstSeason },
    ...{ rows: design.rows, isNew: design.isNew, leftOut: panel.place.length - design.rows.length },
    fitted: Float64Array.from(design.rows, (_, row) => likelihood.rowScore(found.theta, row).chance),
    newFinds: design.isNew.reduce((sum, each) => sum + each, 0),
    logLikelihood: -found.value,
  };

  function estimate(name: string, k: number): HazardEstimate {
    const value = found.theta[k]!;
    const standardError = Math.sqrt(covariance[k * size + k]!);
    return {
      ...{ name, value, standardError },
      modelStandardError: Math.sqrt(inverse![k * size + k]!),
      hazardRatio: Math.exp(value),
      low: Math.exp(value - z * standardError),
      high: Math.exp(value + z * standardError),
      p: standardError > 0 ? twoSidedP(value / standardError) : 1,
    };
  }
}

/** Largest logarithm of a hazard ratio over the range of a term. */
const MOST = 20;
/** Levels lie between e^−60 and e^60 for each population. */
const LOWEST_LEVEL = 60;

/** Each level at the hazard of all its rows together. */
function startingLevels({ columns, level, tested, isNew, levelSeasons }: HazardDesign, size: number) {
  const finds = new Float64Array(levelSeasons.length);
  const all = new Float64Array(levelSeasons.length);
  level.forEach((own, row) => {
    finds[own]! += isNew[row]!;
    all[own]! += tested[row]!;
  });
  return Float64Array.from({ length: size }, (_, k) =>
    k < columns.length ? 0 : Math.log(finds[k - columns.length]! / all[k - columns.length]!),
  );
}

type Likelihood = ReturnType<typeof hazardLikelihood>;

/**
 * The parameter that a further step would still move though the likelihood gains nothing by it; −1 where none. Where a
 * chance nears 1, gains die out as e^−e^η, long before an endless effect comes to its bound: where the search stops is
 * chance, and so would be the hazards of rows in between. A true best fit moves by 1e-7 or so.
 */
function stillMoving(design: HazardDesign, { evaluate, size }: Likelihood, theta: Float64Array): number {
  const gradient = new Float64Array(size);
  const curvature = new Float64Array(size * size);
  evaluate(theta, gradient, curvature);
  const step = solvePositive(curvature, gradient, size);
  if (step === null) return 0;
  const reach = step.map((each, k) => {
    const column = design.columns[k];
    return Math.abs(each) * (column ? Math.max(...column) - Math.min(...column) : 1);
  });
  const at = reach.indexOf(Math.max(...reach));
  return reach[at]! > STILL ? at : -1;
}

/** Largest logarithm of a hazard ratio that a further step may add to a best fit; own rule. */
const STILL = 1e-3;

function expectedInformation(design: HazardDesign, { rowScore, size }: Likelihood, theta: Float64Array) {
  const matrix = new Float64Array(size * size);
  design.level.forEach((_, row) => {
    addSquare(design, row, rowScore(theta, row).information, matrix);
  });
  mirror(matrix, size);
  return matrix;
}

/** B · Σ s s′ · B · G / (G − 1), s the sum of a place's scores. */
function clustered(
  design: HazardDesign,
  { rowScore, size }: Likelihood,
  theta: Float64Array,
  bread: Float64Array,
): { covariance: Float64Array; places: number } {
  const sums = new Map<number, Float64Array>();
  design.place.forEach((place, row) => {
    if (!sums.has(place)) sums.set(place, new Float64Array(size));
    addRow(design, row, rowScore(theta, row).score, sums.get(place)!);
  });
  const covariance = new Float64Array(size * size);
  const factor = sums.size / Math.max(1, sums.size - 1);
  for (const score of sums.values()) {
    const moved = new Float64Array(size);
    for (let j = 0; j < size; j += 1) {
      for (let k = 0; k < size; k += 1) moved[j]! += bread[j * size + k]! * score[k]!;
    }
    for (let j = 0; j < size; j += 1) {
      for (let k = 0; k < size; k += 1) covariance[j * size + k]! += factor * moved[j]! * moved[k]!;
    }
  }
  return { covariance, places: sums.size };
}

function none(reason: NoHazard['reason'], message: string): NoHazard {
  return { kind: 'no fit', reason, message };
}
