/** So many arrangements are summed side by side. */
export const LANES = 4;

/** The labels of four arrangements of the same items. */
export type Lanes = readonly [Float64Array, Float64Array, Float64Array, Float64Array];

/** Adds, for each arrangement, Σ over later items j of first(i, j) · second(label i, label j) to its sum. */
export type AddRow = (
  first: Float64Array,
  start: number,
  lanes: Lanes,
  i: number,
  sums: Float64Array,
) => void;

/**
 * Σ over all pairs of first(i, j) · second(label i, label j), for four arrangements of the labels at once: each entry of
 * `first` is read once for the four, in the order in which it lies.
 *
 * @param first of each pair i < j, row by row
 * @cost O(items²)
 */
export function sumProducts(first: Float64Array, lanes: Lanes, addRow: AddRow): Float64Array {
  const items = lanes[0].length;
  const sums = new Float64Array(LANES);
  let start = 0;
  for (let i = 0; i < items; i += 1) {
    addRow(first, start, lanes, i, sums);
    start += items - 1 - i;
  }
  return sums;
}

/** Labels are times; second is how far they are apart. */
export function addDistances(
  first: Float64Array,
  start: number,
  [a, b, c, d]: Lanes,
  i: number,
  sums: Float64Array,
): void {
  const [timeA, timeB, timeC, timeD] = [a[i]!, b[i]!, c[i]!, d[i]!];
  let [sumA, sumB, sumC, sumD] = [0, 0, 0, 0];
  for (let j = i + 1, at = start; j < a.length; j += 1, at += 1) {
    const weight = first[at]!;
    sumA += weight * Math.abs(a[j]! - timeA);
    sumB += weight * Math.abs(b[j]! - timeB);
    sumC += weight * Math.abs(c[j]! - timeC);
    sumD += weight * Math.abs(d[j]! - timeD);
  }
  addTo(sums, sumA, sumB, sumC, sumD);
}

/** Labels are times; second is 1 / (how far they are apart + constant). */
export function addReciprocals(constant: number): AddRow {
  return (first, start, [a, b, c, d], i, sums) => {
    const [timeA, timeB, timeC, timeD] = [a[i]!, b[i]!, c[i]!, d[i]!];
    let [sumA, sumB, sumC, sumD] = [0, 0, 0, 0];
    for (let j = i + 1, at = start; j < a.length; j += 1, at += 1) {
      const weight = first[at]!;
      sumA += weight / (Math.abs(a[j]! - timeA) + constant);
      sumB += weight / (Math.abs(b[j]! - timeB) + constant);
      sumC += weight / (Math.abs(c[j]! - timeC) + constant);
      sumD += weight / (Math.abs(d[j]! - timeD) + constant);
    }
    addTo(sums, sumA, sumB, sumC, sumD);
  };
}

/** Labels are indices of a square table of `size`². */
export function addEntries(table: Float64Array, size: number): AddRow {
  return (first, start, [a, b, c, d], i, sums) => {
    const [rowA, rowB, rowC, rowD] = [a[i]! * size, b[i]! * size, c[i]! * size, d[i]! * size];
    let [sumA, sumB, sumC, sumD] = [0, 0, 0, 0];
    for (let j = i + 1, at = start; j < a.length; j += 1, at += 1) {
      const weight = first[at]!;
      sumA += weight * table[rowA + a[j]!]!;
      sumB += weight * table[rowB + b[j]!]!;
      sumC += weight * table[rowC + c[j]!]!;
      sumD += weight * table[rowD + d[j]!]!;
    }
    addTo(sums, sumA, sumB, sumC, sumD);
  };
}

function addTo(sums: Float64Array, a: number, b: number, c: number, d: number): void {
  sums[0]! += a;
  sums[1]! += b;
  sums[2]! += c;
  sums[3]! += d;
}
