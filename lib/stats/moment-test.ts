import { normalCdf } from './normal';

/** A statistic against its distribution under one assumption. */
export interface MomentTest {
  variance: number;
  z: number;
  /** Probability of a statistic at least as large, from the normal approximation. */
  pGreater: number;
}

/**
 * @param excess of the statistic over its expectation
 * @returns null where the variance is not positive, as where all places are neighbours of all
 */
export function momentTest(excess: number, variance: number): MomentTest | null {
  if (!(variance > 1e-14)) return null;
  const z = excess / Math.sqrt(variance);
  return { variance, z, pGreater: normalCdf(-z) };
}
