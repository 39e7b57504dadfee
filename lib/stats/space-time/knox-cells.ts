import { StatsError } from '../errors';
import type { KnoxCell, KnoxGrid } from './types';

/**
 * The cells of a grid of distances and lags from counts of the data and of each permutation, with p of each cell and p
 * adjusted for having looked at all of them.
 *
 * @param counts row r = 0 the data, 1 … R the permutations; in each row distance × lag, lag last, pairs counted in the
 *   closest class they fit
 * @policy The data count as one of the R + 1 arrangements, so that the adjusted p is exact. Cells in which few counts
 *   are possible have coarse p and lose little to the others by it.
 * @source Westfall & Young 1993, Resampling-Based Multiple Testing, single-step minimum p; p of each permutation among
 *   the others: Ge, Dudoit & Speed 2003, Test 12:1–77 (both from memory)
 * @cost O(cells · R log R)
 */
export function knoxCells(counts: Int32Array, { distances, lags }: KnoxGrid): KnoxCell[] {
  const cells = distances.length * lags.length;
  const rows = counts.length / cells;
  for (let row = 0; row < rows; row += 1)
    addCloser(counts.subarray(row * cells, (row + 1) * cells), lags.length);
  const smallest = new Float64Array(rows).fill(1);
  const found = Array.from({ length: cells }, (_, cell) => {
    const column = Int32Array.from({ length: rows }, (_, row) => counts[row * cells + cell]!);
    const sorted = column.slice().sort();
    const asLarge = new Map<number, number>();
    sorted.forEach((count, at) => {
      if (!asLarge.has(count)) asLarge.set(count, (rows - at) / rows);
    });
    column.forEach((count, row) => {
      smallest[row] = Math.min(smallest[row]!, asLarge.get(count)!);
    });
    return { column, p: asLarge.get(column[0]!)! };
  });
  return found.map(({ column, p }, cell) => ({
    distance: distances[Math.floor(cell / lags.length)]!,
    lag: lags[cell % lags.length]!,
    observed: column[0]!,
    ...describe(column.subarray(1)),
    p,
    adjusted: smallest.reduce((sum, each) => sum + Number(each <= p), 0) / rows,
  }));
}

/** Throws `bad argument` unless there are limits, none below 0, that rise. */
export function checkGrid({ distances, lags }: KnoxGrid): void {
  for (const limits of [distances, lags]) {
    const rising = limits.every((limit, k) => limit >= 0 && (k === 0 || limit > limits[k - 1]!));
    if (limits.length === 0 || limits.length > 254 || !rising) {
      throw new StatsError(
        'bad argument',
        `Got limits ${limits.join(', ')}; expected 1 to 254, ≥ 0 and rising.`,
      );
    }
  }
}

/** From pairs in each class to pairs in it or a closer one. */
function addCloser(row: Int32Array, lags: number): void {
  for (let cell = 0; cell < row.length; cell += 1) if (cell % lags > 0) row[cell]! += row[cell - 1]!;
  for (let cell = lags; cell < row.length; cell += 1) row[cell]! += row[cell - lags]!;
}

function describe(column: Int32Array): { expected: number; deviation: number } {
  const expected = column.reduce((sum, count) => sum + count, 0) / column.length;
  const squares = column.reduce((sum, count) => sum + (count - expected) ** 2, 0);
  return { expected, deviation: Math.sqrt(squares / column.length) };
}
