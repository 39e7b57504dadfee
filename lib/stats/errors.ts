/** Why a kernel has no answer. */
export type StatsErrorCode =
  | 'bad count'
  | 'nothing tested'
  | 'too few'
  | 'constant'
  | 'isolated'
  | 'bad argument';

/** A kernel never answers with NaN: it says what was given, what it needs, and what to do about it. */
export class StatsError extends Error {
  override readonly name = 'StatsError';

  constructor(
    readonly code: StatsErrorCode,
    message: string,
  ) {
    super(message);
  }
}

/** Throws `bad count` unless 0 ≤ cases ≤ tested are finite, and `nothing tested` where tested is zero. */
export function checkCounts(cases: number, tested: number, where: string): void {
  if (!(cases >= 0 && cases <= tested && tested < Number.POSITIVE_INFINITY)) {
    throw new StatsError(
      'bad count',
      `${where}: got ${cases} of ${tested}; expected 0 ≤ cases ≤ tested. Check the counts.`,
    );
  }
  if (tested === 0) {
    throw new StatsError(
      'nothing tested',
      `${where}: tested is 0, so there is no share. Leave the place out.`,
    );
  }
}

/** Throws `bad count` unless both are whole numbers and 0 ≤ cases ≤ tested; none tested is no error. */
export function checkWholeCounts(cases: number, tested: number, where: string): void {
  const isWhole = Number.isSafeInteger(cases) && Number.isSafeInteger(tested);
  if (!(isWhole && cases >= 0 && cases <= tested)) {
    throw new StatsError(
      'bad count',
      `${where}: got ${cases} of ${tested}; expected whole numbers, 0 ≤ cases ≤ tested.`,
    );
  }
}

/** Throws `bad argument` unless the number of permutations is an integer of at least 1. */
export function checkPermutations(permutations: number): void {
  if (!(Number.isInteger(permutations) && permutations >= 1)) {
    throw new StatsError(
      'bad argument',
      `Got ${permutations} permutations; expected an integer ≥ 1, as 9999.`,
    );
  }
}

/** Throws `bad argument` unless both arrays have the same length. */
export function checkLengths(a: ArrayLike<number>, b: ArrayLike<number>, what: string): void {
  if (a.length !== b.length) {
    throw new StatsError('bad argument', `${what}: lengths ${a.length} and ${b.length} differ.`);
  }
}

/** What `ask` answers; null where it has none for one of these reasons. */
export function whereDefined<T>(reasons: readonly StatsErrorCode[], ask: () => T): T | null {
  try {
    return ask();
  } catch (error) {
    if (error instanceof StatsError && reasons.includes(error.code)) return null;
    throw error;
  }
}
