/**
 * Optimal string alignment distance between two texts: insertions, deletions, substitutions and swaps of two
 * neighbouring letters, each once, cost 1. Returns `limit + 1` as soon as the distance exceeds `limit`.
 * Cost O(|a|·|b|). Source: Damerau 1964 (Commun. ACM 7(3):171–176); restricted variant, from memory.
 */
export function editDistance(a: string, b: string, limit = Number.POSITIVE_INFINITY): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let beforeLast = new Uint16Array(b.length + 1);
  let last = Uint16Array.from({ length: b.length + 1 }, (_, j) => j);
  let row = new Uint16Array(b.length + 1);
  for (let i = 1; i <= a.length; i++) {
    row[0] = i;
    let best = i;
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let cost = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
        cost = Math.min(cost, beforeLast[j - 2]! + 1);
      }
      row[j] = cost;
      if (cost < best) best = cost;
    }
    if (best > limit) return limit + 1;
    [beforeLast, last, row] = [last, row, beforeLast];
  }
  return last[b.length]!;
}
