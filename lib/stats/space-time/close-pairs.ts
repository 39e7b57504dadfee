/** For each item the later ones that are close, as rows of `offsets`. */
export interface ClosePairs {
  offsets: Int32Array;
  others: Int32Array;
  /** The class of each pair. */
  classes: Int32Array;
}

/**
 * All pairs i < j that have a class.
 *
 * @param classOf the class of a pair, below 0 for none
 * @cost O(items²) calls
 */
export function closePairs(items: number, classOf: (i: number, j: number) => number): ClosePairs {
  const offsets = new Int32Array(items + 1);
  const others: number[] = [];
  const classes: number[] = [];
  for (let i = 0; i < items; i += 1) {
    for (let j = i + 1; j < items; j += 1) {
      const own = classOf(i, j);
      if (own < 0) continue;
      others.push(j);
      classes.push(own);
    }
    offsets[i + 1] = others.length;
  }
  return { offsets, others: Int32Array.from(others), classes: Int32Array.from(classes) };
}

/** The first limit that a value does not pass; −1 where it passes all. */
export function firstWithin(limits: readonly number[], value: number): number {
  for (let k = 0; k < limits.length; k += 1) if (value <= limits[k]!) return k;
  return -1;
}
