/**
 * Solves A·x = b for a symmetric positive definite A (row by row, `size` × `size`) by Cholesky's method, after scaling
 * its diagonal to 1. Null where a pivot falls below `least` (the columns are then as good as dependent).
 */
export function solvePositive(
  matrix: Float64Array,
  right: Float64Array,
  size: number,
  least = 1e-13,
): Float64Array | null {
  const scale = new Float64Array(size);
  const root = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) {
    const diagonal = matrix[i * size + i]!;
    if (!(diagonal > 0 && diagonal < Number.POSITIVE_INFINITY)) return null;
    scale[i] = 1 / Math.sqrt(diagonal);
  }
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = matrix[i * size + j]! * scale[i]! * scale[j]!;
      for (let k = 0; k < j; k += 1) sum -= root[i * size + k]! * root[j * size + k]!;
      if (i === j && !(sum > least)) return null;
      root[i * size + j] = i === j ? Math.sqrt(sum) : sum / root[j * size + j]!;
    }
  }
  const x = new Float64Array(size);
  for (let i = 0; i < size; i += 1) {
    let sum = right[i]! * scale[i]!;
    for (let k = 0; k < i; k += 1) sum -= root[i * size + k]! * x[k]!;
    x[i] = sum / root[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = x[i]!;
    for (let k = i + 1; k < size; k += 1) sum -= root[k * size + i]! * x[k]!;
    x[i] = sum / root[i * size + i]!;
  }
  for (let i = 0; i < size; i += 1) x[i]! *= scale[i]!;
  return x;
}

/** Inverse of a symmetric positive definite matrix; null as `solvePositive`. */
export function invertPositive(matrix: Float64Array, size: number, least = 1e-13): Float64Array | null {
  const inverse = new Float64Array(size * size);
  for (let column = 0; column < size; column += 1) {
    const unit = new Float64Array(size);
    unit[column] = 1;
    const x = solvePositive(matrix, unit, size, least);
    if (x === null) return null;
    for (let i = 0; i < size; i += 1) inverse[i * size + column] = x[i]!;
  }
  return inverse;
}
