export interface Resolution {
  /** Smallest two-sided p that so many permutations can give: 2 / (B + 1). */
  smallestP: number;
  /** Places that would have to reach it together before one is flagged; 1 = a place can be flagged alone. */
  placesNeeded: number;
  /** What to do where a place cannot be flagged alone; else null. */
  warning: string | null;
}

/**
 * Can so many permutations reach a false-discovery level over so many places? A map tested too coarsely shows nothing
 * however strong the pattern.
 *
 * @param level of the adjusted p, as 0.05
 * @source arithmetic on Benjamini & Hochberg 1995: the smallest adjusted p of j equal ones is p · tests / j
 */
export function resolution(permutations: number, tests: number, level: number): Resolution {
  const smallestP = 2 / (permutations + 1);
  const placesNeeded = Math.max(1, Math.ceil((smallestP * tests) / level - 1e-9));
  const warning =
    placesNeeded > 1
      ? `${permutations} permutations cannot flag fewer than ${placesNeeded} of ${tests} places at ${level}; ` +
        `use at least ${permutationsNeeded(tests, level)}.`
      : null;
  return { smallestP, placesNeeded, warning };
}

/** Permutations with which a single place of so many can be flagged. */
export function permutationsNeeded(tests: number, level: number): number {
  return Math.ceil((2 * tests) / level - 1e-9) - 1;
}
