/** Plain forms of what the kernels compute by other ways: no digits saved, no derivatives, no bounds but by refusal. */

export interface Rows {
  dose: readonly number[];
  curve?: readonly number[];
}

/** Response at each row; `theta` holds (slope, ln ED50) of each curve, then lower and upper limit. */
export function responses({ dose, curve }: Rows, theta: readonly number[]): number[] {
  const [lower, upper] = [theta.at(-2)!, theta.at(-1)!];
  return dose.map((d, row) => {
    const at = 2 * (curve?.[row] ?? 0);
    const share = d === 0 ? Number(theta[at]! > 0) : 1 / (1 + (d / Math.exp(theta[at + 1]!)) ** theta[at]!);
    return lower + (upper - lower) * share;
  });
}

/** Negative log-likelihood of plants, but for the coefficients; Infinity where a limit is no share. */
export function surprise(
  rows: Rows & { treated: readonly number[]; alive: readonly number[] },
  theta: readonly number[],
): number {
  const [lower, upper] = [theta.at(-2)!, theta.at(-1)!];
  if (!(lower >= 0 && lower < upper && upper <= 1)) return Number.POSITIVE_INFINITY;
  return responses(rows, theta).reduce((sum, p, row) => {
    const [alive, dead] = [rows.alive[row]!, rows.treated[row]! - rows.alive[row]!];
    return sum - (alive > 0 ? alive * Math.log(p) : 0) - (dead > 0 ? dead * Math.log(1 - p) : 0);
  }, 0);
}

/** Weighted sum of squares. */
export function squares(
  rows: Rows & { response: readonly number[]; weight?: readonly number[] },
  theta: readonly number[],
): number {
  return responses(rows, theta).reduce(
    (sum, y, row) => sum + (rows.weight?.[row] ?? 1) * (y - rows.response[row]!) ** 2,
    0,
  );
}

/**
 * Least value by a simplex that is begun anew around the best point until that gains nothing.
 * @source Nelder & Mead 1965, Computer Journal 7:308–313 (from memory)
 */
export function leastBySimplex(f: (x: readonly number[]) => number, start: readonly number[]): number {
  let [best, value] = [start, f(start)];
  for (let size = 1; size > 1e-3; size /= 2) {
    const found = simplex(f, best, size);
    if (found.value < value) [best, value] = [found.point, found.value];
  }
  return value;
}

function simplex(f: (x: readonly number[]) => number, start: readonly number[], size: number) {
  const n = start.length;
  const at = (point: readonly number[]) => ({ point, value: f(point) });
  let corners = [at(start), ...start.map((_, k) => at(start.map((x, j) => (j === k ? x + size : x))))];
  for (let round = 0; round < 400; round += 1) {
    corners.sort((a, b) => a.value - b.value);
    const worst = corners[n]!;
    const centre = start.map((_, k) => corners.slice(0, n).reduce((sum, c) => sum + c.point[k]!, 0) / n);
    const along = (by: number) => at(centre.map((c, k) => c + by * (c - worst.point[k]!)));
    const mirrored = along(1);
    const next =
      mirrored.value < corners[0]!.value
        ? [along(2), mirrored].sort((a, b) => a.value - b.value)[0]!
        : mirrored.value < corners[n - 1]!.value
          ? mirrored
          : along(-0.5);
    if (next.value < worst.value) corners[n] = next;
    else {
      const [first] = corners;
      corners = corners.map(({ point }) => at(point.map((x, k) => (x + first!.point[k]!) / 2)));
    }
  }
  return corners.reduce((a, b) => (b.value < a.value ? b : a));
}

/** Derivatives of the responses by differences: one row of `theta.length` a row. */
export function slopesOf(rows: Rows, theta: readonly number[]): number[][] {
  const step = 1e-5;
  const moved = theta.map((_, k) =>
    [-step, step].map((by) =>
      responses(
        rows,
        theta.map((x, j) => (j === k ? x + by : x)),
      ),
    ),
  );
  return rows.dose.map((_, row) =>
    moved.map(([before, after]) => (after![row]! - before![row]!) / (2 * step)),
  );
}

/** Inverse of Σ weight · g gᵀ over the columns of `slopes` that are `free`, by elimination; 0 elsewhere. */
export function covarianceOf(
  slopes: readonly number[][],
  weights: readonly number[],
  free: readonly number[],
): number[][] {
  const n = free.length;
  const matrix = free.map((j, row) => [
    ...free.map((k) => slopes.reduce((sum, g, i) => sum + weights[i]! * g[j]! * g[k]!, 0)),
    ...free.map((_, column) => Number(column === row)),
  ]);
  for (let k = 0; k < n; k += 1) {
    const pivot = matrix.slice(k).reduce((a, b) => (Math.abs(b[k]!) > Math.abs(a[k]!) ? b : a));
    matrix.splice(matrix.indexOf(pivot), 1);
    matrix.splice(k, 0, pivot);
    const scaled = pivot.map((x) => x / pivot[k]!);
    matrix[k] = scaled;
    for (let i = 0; i < n; i += 1) {
      if (i !== k) matrix[i] = matrix[i]!.map((x, column) => x - matrix[i]![k]! * scaled[column]!);
    }
  }
  const size = slopes[0]!.length;
  const all = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  free.forEach((j, row) => {
    free.forEach((k, column) => {
      all[j]![k] = matrix[row]![n + column]!;
    });
  });
  return all;
}
