import { StatsError } from './errors';

/**
 * Probability that a Beta(a, b) variable is at most x (the regularised incomplete beta function).
 *
 * @param x 0 … 1; `a`, `b` > 0
 * @returns 0 … 1, error below 1e-11 for a + b up to 10^4
 * @source the continued fraction of NIST DLMF 8.17.22, evaluated by the modified Lentz method (Thompson & Barnett
 *   1986, J. Comput. Phys. 64:490–509); DLMF 8.17.4 for the other half
 */
export function incompleteBeta(a: number, b: number, x: number): number {
  if (!(a > 0 && b > 0 && x >= 0 && x <= 1)) {
    throw new StatsError(
      'bad argument',
      `Got a = ${a}, b = ${b}, x = ${x}; expected a, b > 0 and 0 ≤ x ≤ 1.`,
    );
  }
  if (x === 0 || x === 1) return x;
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b));
  // The fraction converges fast below the mean; above it the complement does.
  return x < (a + 1) / (a + b + 2)
    ? (front * continuedFraction(a, b, x)) / a
    : 1 - (front * continuedFraction(b, a, 1 - x)) / b;
}

/** The x at which `incompleteBeta` is p (0 … 1), by bisection to the last bit. */
export function betaQuantile(p: number, a: number, b: number): number {
  if (!(p >= 0 && p <= 1)) throw new StatsError('bad argument', `Got probability ${p}; expected 0 … 1.`);
  if (p === 0 || p === 1) return p;
  let low = 0;
  let high = 1;
  for (let middle = 0.5; middle > low && middle < high; middle = (low + high) / 2) {
    if (incompleteBeta(a, b, middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * Natural logarithm of the gamma function, x > 0; relative error about 1e-15.
 * @source Stirling's series, NIST DLMF 5.11.1, after moving x above 15 by the recurrence DLMF 5.5.1
 */
export function logGamma(x: number): number {
  let product = 1;
  let shifted = x;
  while (shifted < 15) {
    product *= shifted;
    shifted += 1;
  }
  const inverse = 1 / (shifted * shifted);
  const series =
    (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse * (1 / 1680 - inverse / 1188)))) / shifted;
  return (
    (shifted - 0.5) * Math.log(shifted) - shifted + Math.log(2 * Math.PI) / 2 + series - Math.log(product)
  );
}

function continuedFraction(a: number, b: number, x: number): number {
  let c = 1;
  let d = 1 / awayFromZero(1 - ((a + b) * x) / (a + 1));
  let value = d;
  for (let m = 1; m <= 10_000; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / awayFromZero(1 + even * d);
    c = awayFromZero(1 + even / c);
    value *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / awayFromZero(1 + odd * d);
    c = awayFromZero(1 + odd / c);
    value *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) return value;
  }
  throw new StatsError('bad argument', `The incomplete beta function did not settle at a = ${a}, b = ${b}.`);
}

function awayFromZero(value: number): number {
  return Math.abs(value) < 1e-300 ? 1e-300 : value;
}
