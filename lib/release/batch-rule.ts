import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import { isTooThin } from '@/lib/disclosure/primary';
import type { Policy } from '@/lib/disclosure/types';

/** One population as it stood in a cell of an earlier release, and as it stands there now; null where it is not in it. */
export interface Move {
  before: Fact | null;
  after: Fact | null;
}

/** Why a change of a cell must wait. */
export type Shortfall = 'too few populations' | 'too few operations' | 'one operation' | 'alike';

/**
 * The batch rule: what changes in a cell between two releases can be had by subtraction, so it must be fit to be
 * shown by itself. Its populations (entering, leaving or corrected, each once) pass parts (a)–(c) of the primary rule;
 * and where all that enters or all that leaves is alike (none resistant, or all but one), there are as many operations
 * as part (d) asks for. Stricter than 3 operations and 5 populations, which are parts (a) and (b).
 *
 * @param hasReceipt whether received, testable and inconclusive of the cell are shown: then untested ones count too
 * @returns null where nothing that shows changes, or what changes may be shown
 * @source design of disclosure control, policy 3 and 8
 */
export function shortfallOf(moves: readonly Move[], hasReceipt: boolean, policy: Policy): Shortfall | null {
  const moving = moves.filter(
    ({ before, after }) => JSON.stringify(shown(before)) !== JSON.stringify(shown(after)),
  );
  const results = moving.filter(({ before, after }) => resultOf(before) !== resultOf(after));
  const found = results.length > 0 ? thinness(results, policy) : null;
  if (found !== null) return found;
  if (results.length > 0 && sendersOf(results).size < policy.unanimousOperations) {
    const parts = [results.map(({ before }) => before), results.map(({ after }) => after)];
    if (parts.some((part) => isAlike(part.map(resultOf).filter((result) => result !== null)))) return 'alike';
  }
  const visible = hasReceipt
    ? moving
    : moving.filter(({ before, after }) => resultOf(before) ?? resultOf(after));
  return visible.length > 0 ? thinness(visible, policy) : null;
}

/** What a release can show of a population in a cell. */
function shown(fact: Fact | null): unknown {
  return fact && [fact.result, fact.actives];
}

function resultOf(fact: Fact | null): Fact['result'] | null {
  return fact && isTested(fact) ? fact.result : null;
}

function thinness(moves: readonly Move[], policy: Policy): Shortfall | null {
  const senders = sendersOf(moves);
  const cell = {
    tested: moves.length,
    operations: senders.size,
    largestOperation: Math.max(...senders.values()),
  };
  if (!isTooThin(cell, policy)) return null;
  if (cell.tested < policy.minimumTested) return 'too few populations';
  return cell.operations < policy.minimumOperations ? 'too few operations' : 'one operation';
}

/** A population whose sender was corrected counts for the one named now. */
function sendersOf(moves: readonly Move[]): Map<string, number> {
  const senders = new Map<string, number>();
  for (const { before, after } of moves) {
    const sender = senderOf((after ?? before)!);
    senders.set(sender, (senders.get(sender) ?? 0) + 1);
  }
  return senders;
}

function isAlike(results: readonly Fact['result'][]): boolean {
  const resistant = results.filter((result) => result === 'resistant').length;
  return results.length > 0 && (resistant === 0 || resistant >= results.length - 1);
}
