import type { Cell } from '@/lib/cube/types';
import type { Policy } from './types';

/** What the primary rule looks at. */
export type Judged = Pick<Cell, 'tested' | 'resistant' | 'operations' | 'largestOperation'>;

/**
 * The primary rule (a)–(d): true where all measures of a cell must be withheld. Zero tested is public and never
 * withheld. Source: design of disclosure control, policy 3.
 */
export function isPrimary(cell: Judged, policy: Policy): boolean {
  if (cell.tested === 0) return false;
  if (isTooThin(cell, policy)) return true;
  const unanimous = cell.resistant === 0 || cell.resistant >= cell.tested - 1;
  return unanimous && cell.operations < policy.unanimousOperations;
}

/** Parts (a)–(c) of the rule: too few populations or operations, or one operation too large. Blind to outcomes. */
export function isTooThin(cell: Omit<Judged, 'resistant'>, policy: Policy): boolean {
  return (
    cell.tested < policy.minimumTested ||
    cell.operations < policy.minimumOperations ||
    cell.largestOperation > policy.dominanceShare * cell.tested + 1e-9
  );
}
