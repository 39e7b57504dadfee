import { isTooThin } from '../primary';
import type { Policy } from '../types';

/** What the populations of some counties together are for the rule. */
export type Verdict = 'none' | 'passes' | 'fails';

/**
 * Judges sets of counties by parts (a)–(c) of the primary rule, with as many operations as part (d) asks for, so that a
 * unanimous cell can be shown too. Blind to outcomes.
 *
 * @param operations for each county the populations of each operation that sent any
 * @returns for places in `operations`, what they are together; O(counties + operations that sent from several)
 */
export function createEffortJudge(
  operations: readonly ReadonlyMap<string, number>[],
  policy: Policy,
): (counties: readonly number[]) => Verdict {
  const spanning = spanningOperations(operations);
  const own = operations.map((byOperation) => {
    const local = [...byOperation].filter(([id]) => !spanning.has(id)).map(([, populations]) => populations);
    return {
      tested: [...byOperation.values()].reduce((sum, populations) => sum + populations, 0),
      operations: local.length,
      largest: Math.max(0, ...local),
    };
  });
  const minimumOperations = Math.max(policy.minimumOperations, policy.unanimousOperations);
  const strict = { ...policy, minimumOperations };
  return (counties) => {
    let [tested, senders, largest] = [0, 0, 0];
    for (const county of counties) {
      const { tested: more, operations: local, largest: most } = own[county]!;
      tested += more;
      senders += local;
      if (most > largest) largest = most;
    }
    for (const populations of spanning.values()) {
      let sent = 0;
      for (const county of counties) sent += populations[county]!;
      if (sent > 0) senders++;
      if (sent > largest) largest = sent;
    }
    if (tested === 0) return 'none';
    const thin = isTooThin({ tested, operations: senders, largestOperation: largest }, strict);
    return thin ? 'fails' : 'passes';
  };
}

/** Populations by county of the operations that sent from several counties. */
function spanningOperations(operations: readonly ReadonlyMap<string, number>[]): Map<string, Uint16Array> {
  const spanning = new Map<string, Uint16Array>();
  const seen = new Set<string>();
  for (const byOperation of operations) {
    for (const id of byOperation.keys()) {
      if (seen.has(id) && !spanning.has(id))
        spanning.set(
          id,
          Uint16Array.from(operations, (other) => other.get(id) ?? 0),
        );
      seen.add(id);
    }
  }
  return spanning;
}
