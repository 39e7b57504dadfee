/** Value and slope of a rising function. */
export type Rising = (x: number) => { value: number; slope: number };

/**
 * Where a rising function is zero: Newton's steps, kept inside what is known to hold the root.
 *
 * @param step the farthest that one step may go while no bracket is known
 * @returns the last x; after 200 steps it is given as it is
 */
export function newtonRoot(rising: Rising, start: number, step: number): number {
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let x = start;
  for (let turn = 0; turn < 200; turn += 1) {
    const { value, slope } = rising(x);
    if (value === 0) return x;
    if (value < 0) low = x;
    else high = x;
    const move = -value / slope;
    // A slope that rounding has turned to nothing gives no step, or one the wrong way.
    let next = x + (slope > 0 && Math.abs(move) <= step ? move : -Math.sign(value) * step);
    if (Math.abs(next - x) <= 1e-12 * (1 + Math.abs(x))) return next;
    if (!(next > low && next < high)) next = (low + high) / 2;
    x = next;
  }
  return x;
}
