import { normalCdf } from './normal';

/** Probability of a standard normal variable at least as far from 0 as z, in (0, 1]; below 5e-324 given as that. */
export function twoSidedP(z: number): number {
  return Math.min(1, Math.max(Number.MIN_VALUE, 2 * normalCdf(-Math.abs(z))));
}
