import { solvePositive } from './linear';

/** A sum of squares or a negative log-likelihood of a few parameters. */
export interface Objective {
  size: number;
  /** Value at `theta`; writes the gradient and a positive semidefinite curvature (Gauss–Newton, Fisher) where asked. */
  evaluate(theta: Float64Array, gradient?: Float64Array, curvature?: Float64Array): number;
  low: Float64Array;
  high: Float64Array;
  /** A gain that is nothing beside the size of the data. */
  negligible: number;
  /** Gives up after so many steps; 500 unless given. */
  mostSteps?: number;
}

export interface Minimum {
  theta: Float64Array;
  value: number;
  /** Curvature at `theta`. */
  curvature: Float64Array;
  /** 1 where the parameter ended at `low` or `high` and would go beyond, or has no room at all. */
  atBound: Uint8Array;
  converged: boolean;
}

/**
 * Least value in a box, from a starting point, by damped Gauss–Newton or scoring steps; parameters at a bound that
 * would go beyond it are held. It finds a minimum near the start, so give several starts.
 *
 * @returns `converged` where an undamped step would gain less than 1e-16 of the value (a shift of about 1e-8 standard
 *   errors), or rounding hides any further gain below 1e-9 of it
 * @source Levenberg 1944, Quart. Appl. Math. 2:164–168; Marquardt 1963, J. SIAM 11:431–441 (damping by the diagonal)
 */
export function minimise(objective: Objective, start: Float64Array): Minimum {
  const { size, low, high, negligible, mostSteps = 500 } = objective;
  const gradient = new Float64Array(size);
  const curvature = new Float64Array(size * size);
  const atBound = new Uint8Array(size);
  let theta: Float64Array = Float64Array.from(start, (value, k) =>
    Math.min(high[k]!, Math.max(low[k]!, value)),
  );
  let damping = 1e-3;
  for (let round = 0; round < mostSteps; round += 1) {
    const value = objective.evaluate(theta, gradient, curvature);
    for (let k = 0; k < size; k += 1) {
      const outward =
        low[k] === high[k] ||
        (theta[k]! <= low[k]! && gradient[k]! > 0) ||
        (theta[k]! >= high[k]! && gradient[k]! < 0);
      atBound[k] = outward ? 1 : 0;
    }
    const gain = gainOf(stepFrom(gradient, curvature, atBound, 0), gradient);
    const end = (converged: boolean): Minimum => ({ theta, value, curvature, atBound, converged });
    if (gain <= 1e-16 * Math.abs(value) + negligible) return end(true);
    let next: Float64Array | null = null;
    for (; damping < 1e16 && next === null; damping *= 10) {
      const step = stepFrom(gradient, curvature, atBound, damping);
      if (step === null) continue;
      const trial = theta.map((old, k) => Math.min(high[k]!, Math.max(low[k]!, old + step[k]!)));
      if (objective.evaluate(trial) < value) next = trial;
    }
    if (next === null) return end(gain <= 1e-9 * Math.abs(value) + negligible);
    theta = next;
    damping = Math.max(1e-15, damping / 100);
  }
  const value = objective.evaluate(theta, gradient, curvature);
  return { theta, value, curvature, atBound, converged: false };
}

/** −(C + damping · diag C)⁻¹ g among the parameters that are not held; null where C is singular. */
function stepFrom(
  gradient: Float64Array,
  curvature: Float64Array,
  held: Uint8Array,
  damping: number,
): Float64Array | null {
  const size = gradient.length;
  const matrix = withoutHeld(curvature, held);
  const right = new Float64Array(size);
  for (let k = 0; k < size; k += 1) {
    matrix[k * size + k]! *= 1 + damping;
    if (!held[k]) right[k] = -gradient[k]!;
  }
  return solvePositive(matrix, right, size);
}

/** The matrix with the rows and columns of held parameters replaced by those of the identity. */
export function withoutHeld(matrix: Float64Array, held: Uint8Array): Float64Array {
  const size = held.length;
  return matrix.map((value, at) => {
    const row = Math.floor(at / size);
    const column = at % size;
    if (held[row] || held[column]) return row === column ? 1 : 0;
    return value;
  });
}

function gainOf(step: Float64Array | null, gradient: Float64Array): number {
  if (step === null) return Number.POSITIVE_INFINITY;
  return -step.reduce((sum, value, k) => sum + value * gradient[k]!, 0);
}
