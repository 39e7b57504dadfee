import type { Objective } from '../../optimise/minimise';

/**
 * Second derivatives of an objective, row by row, by central differences of its gradient.
 *
 * @param squares a curvature of about the right size, which sets the steps: a hundredth of a standard error, far above
 *   rounding and far below any bend
 * @cost two gradients for each parameter
 */
export function differencedCurvature(
  { size, evaluate }: Pick<Objective, 'size' | 'evaluate'>,
  theta: Float64Array,
  squares: Float64Array,
): Float64Array {
  const full = new Float64Array(size * size);
  const [up, down, scratch] = [new Float64Array(size), new Float64Array(size), new Float64Array(size * size)];
  for (let k = 0; k < size; k += 1) {
    const h = 0.01 / Math.sqrt(Math.max(squares[k * size + k]!, 1e-12));
    const moved = theta.slice();
    moved[k] = theta[k]! + h;
    evaluate(moved, up, scratch);
    moved[k] = theta[k]! - h;
    evaluate(moved, down, scratch);
    for (let j = 0; j < size; j += 1) full[j * size + k] = (up[j]! - down[j]!) / (2 * h);
  }
  return full.map((value, cell) => (value + full[(cell % size) * size + Math.floor(cell / size)]!) / 2);
}
