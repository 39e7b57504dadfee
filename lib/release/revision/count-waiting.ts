import type { Waiting } from './types';

/** How many late results and corrections wait, in all units together. */
export function countWaiting(waiting: readonly Waiting[]): number {
  return waiting.reduce((sum, { entering, leaving, corrected }) => sum + entering + leaving + corrected, 0);
}
