import type { Objective } from '../../optimise/minimise';
import type { HazardDesign } from './design';

/** Score of a row with regard to its linear predictor, and how much information is to be expected of it. */
export interface RowScore {
  /** Expected chance of a find. */
  chance: number;
  score: number;
  information: number;
  observed: number;
  logLikelihood: number;
}

/**
 * P(new) = 1 − exp(−tested · exp(η)), η the sum of the terms and the row's level.
 *
 * Negative log-likelihood with the observed information, which is positive semidefinite: log(1 − exp(−e^η)) and −e^η are
 * concave, so there is one best fit.
 */
export function hazardLikelihood(
  design: HazardDesign,
): Pick<Objective, 'size' | 'evaluate'> & { rowScore: (theta: Float64Array, row: number) => RowScore } {
  const { columns, level, tested, isNew, levelSeasons } = design;
  const terms = columns.length;
  const size = terms + levelSeasons.length;
  const out: RowScore = { chance: 0, score: 0, information: 0, observed: 0, logLikelihood: 0 };
  const rowScore = (theta: Float64Array, row: number): RowScore => {
    let eta = theta[terms + level[row]!]!;
    for (let k = 0; k < terms; k += 1) eta += theta[k]! * columns[k]![row]!;
    const u = tested[row]! * Math.exp(Math.min(eta, HIGHEST));
    out.chance = -Math.expm1(-u);
    // u / (e^u − 1), which is the score of a find.
    const ratio = u > 0 ? u / Math.expm1(u) : 1;
    out.information = u * ratio;
    if (isNew[row] === 1) {
      out.score = ratio;
      out.observed = Math.max(0, ratio * (u + ratio - 1));
      out.logLikelihood = Math.log(Math.max(Number.MIN_VALUE, out.chance));
    } else {
      out.score = -u;
      out.observed = u;
      out.logLikelihood = -u;
    }
    return out;
  };
  const evaluate: Objective['evaluate'] = (theta, gradient, curvature) => {
    gradient?.fill(0);
    curvature?.fill(0);
    let value = 0;
    for (let row = 0; row < level.length; row += 1) {
      const { score, observed, logLikelihood } = rowScore(theta, row);
      value -= logLikelihood;
      if (!gradient || !curvature) continue;
      addRow(design, row, -score, gradient);
      addSquare(design, row, observed, curvature);
    }
    if (curvature) mirror(curvature, size);
    return value;
  };
  return { size, evaluate, rowScore };
}

/** Adds `weight` times the row of the design. */
export function addRow(
  { columns, level }: HazardDesign,
  row: number,
  weight: number,
  to: Float64Array,
): void {
  for (let k = 0; k < columns.length; k += 1) to[k]! += weight * columns[k]![row]!;
  to[columns.length + level[row]!]! += weight;
}

/** Adds `weight` times the row's square to the lower half of a matrix. */
export function addSquare(
  { columns, level, levelSeasons }: HazardDesign,
  row: number,
  weight: number,
  to: Float64Array,
): void {
  const terms = columns.length;
  const size = terms + levelSeasons.length;
  const own = terms + level[row]!;
  for (let j = 0; j < terms; j += 1) {
    const weighted = weight * columns[j]![row]!;
    for (let k = 0; k <= j; k += 1) to[j * size + k]! += weighted * columns[k]![row]!;
    to[own * size + j]! += weighted;
  }
  to[own * size + own]! += weight;
}

/** Copies the lower half of a square matrix to the upper. */
export function mirror(matrix: Float64Array, size: number): void {
  for (let j = 0; j < size; j += 1) {
    for (let k = 0; k < j; k += 1) matrix[k * size + j] = matrix[j * size + k]!;
  }
}

/** e^η beyond this would overflow; a chance is 1 to the last bit long before. */
const HIGHEST = 300;
