import fc from 'fast-check';

/** A ring of n places with some chords: a graph without isolated places. */
export function ringWith(n: number, chords: readonly (readonly [number, number])[]): number[][] {
  const sets = Array.from({ length: n }, (_, i) => new Set([(i + 1) % n, (i + n - 1) % n]));
  for (const [a, b] of chords) {
    if (a === b) continue;
    sets[a]!.add(b);
    sets[b]!.add(a);
  }
  return sets.map((set) => [...set]);
}

/** A square lattice; neighbours share a side. */
export function lattice(side: number): number[][] {
  return Array.from({ length: side * side }, (_, i) => {
    const column = i % side;
    return [
      ...(column > 0 ? [i - 1] : []),
      ...(column < side - 1 ? [i + 1] : []),
      ...(i >= side ? [i - side] : []),
      ...(i < side * (side - 1) ? [i + side] : []),
    ];
  });
}

/** `order[i]` is the old label of the place that is now i. */
export function relabel(lists: readonly (readonly number[])[], order: readonly number[]): number[][] {
  const now = new Map(order.map((old, i) => [old, i]));
  return order.map((old) => lists[old]!.map((j) => now.get(j)!));
}

/** All ways to take so many of the items. */
export function subsets<T>(items: readonly T[], size: number): T[][] {
  if (size === 0) return [[]];
  if (items.length === 0) return [];
  const [first, ...rest] = items as [T, ...T[]];
  return [...subsets(rest, size - 1).map((subset) => [first, ...subset]), ...subsets(rest, size)];
}

/** Invented: ring graphs with counts of tested and resistant, with values, and an order to relabel them by. */
export const inventedMap = fc.integer({ min: 4, max: 14 }).chain((n) =>
  fc.record({
    lists: fc
      .array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: n })
      .map((chords) => ringWith(n, chords)),
    counts: fc.array(
      fc.integer({ min: 1, max: 9 }).chain((tested) => fc.tuple(fc.constant(tested), fc.nat(tested))),
      { minLength: n, maxLength: n },
    ),
    values: fc.uniqueArray(fc.integer({ min: -50, max: 50 }), { minLength: n, maxLength: n }),
    order: fc.shuffledSubarray([...Array(n).keys()], { minLength: n }),
  }),
);
