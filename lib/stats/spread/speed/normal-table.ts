import { normalCdf } from '../../normal';

/**
 * The normal distribution function for likelihoods that ask for it a million times: within 1e-12 of `normalCdf`, from a
 * table with cubic steps between its entries; beyond five standard deviations, where digits of small values count,
 * `normalCdf` itself.
 *
 * @source cubic Hermite interpolation: its error is h⁴ / 384 of the largest fourth derivative, here 0.6 e-12
 */
export function quickNormalCdf(z: number): number {
  if (!(z > -REACH && z < REACH)) return z > FAR ? 1 : normalCdf(z);
  const at = (z + REACH) * STEPS;
  const k = Math.floor(at);
  const u = at - k;
  const [from, to] = [VALUES[k]!, VALUES[k + 1]!];
  const [slopeFrom, slopeTo] = [SLOPES[k]!, SLOPES[k + 1]!];
  const rise = to - from;
  return (
    from + u * (slopeFrom + u * (3 * rise - 2 * slopeFrom - slopeTo + u * (slopeFrom + slopeTo - 2 * rise)))
  );
}

const REACH = 5;
const FAR = 8.5;
const STEPS = 256;
const ENTRIES = Array.from({ length: 2 * REACH * STEPS + 2 }, (_, k) => k / STEPS - REACH);
const VALUES = Float64Array.from(ENTRIES, normalCdf);
/** Density times the width of a step. */
const SLOPES = Float64Array.from(ENTRIES, (z) => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI) / STEPS);
