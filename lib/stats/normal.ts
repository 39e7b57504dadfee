import { StatsError } from './errors';

/**
 * Probability that a standard normal variable is at most x: relative error below 1e-12 down to x = −37, 0 below −39.
 *
 * @source |x| < 3: Marsaglia 2004, Evaluating the normal distribution, Journal of Statistical Software 11(4),
 *   doi 10.18637/jss.v011.i04, p. 5 (a series of positive terms); else Laplace's continued fraction, NIST DLMF 7.9.3
 */
export function normalCdf(x: number): number {
  const size = Math.abs(x);
  const density = Math.exp((-size * size) / 2) / Math.sqrt(2 * Math.PI);
  const tail = size < 3 ? 0.5 - density * centreSeries(size) : density * tailFraction(size);
  return x > 0 ? 1 - tail : tail;
}

/**
 * The x at which `normalCdf` is p, for 0 < p < 1; relative error about 1e-16.
 *
 * @throws StatsError `bad argument` outside (0, 1)
 * @source Wichura 1988, Algorithm AS 241 (PPND16), Applied Statistics 37:477–484, doi 10.2307/2347330
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) {
    throw new StatsError('bad argument', `Got probability ${p}; expected a number between 0 and 1.`);
  }
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * horner(CENTRE_TOP, r)) / horner(CENTRE_BOTTOM, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size =
    r <= 5
      ? horner(MIDDLE_TOP, r - 1.6) / horner(MIDDLE_BOTTOM, r - 1.6)
      : horner(TAIL_TOP, r - 5) / horner(TAIL_BOTTOM, r - 5);
  return q < 0 ? -size : size;
}

/** x + x³/3 + x⁵/(3·5) + … */
function centreSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let odd = 3; term > sum * 1e-17; odd += 2) {
    term *= (x * x) / odd;
    sum += term;
  }
  return sum;
}

/** 1/(x + 1/(x + 2/(x + 3/(x + …)))), cut where it has long settled for x ≥ 3. */
function tailFraction(x: number): number {
  let value = x;
  for (let k = 80; k >= 1; k -= 1) value = x + k / value;
  return 1 / value;
}

/** Value at x of the polynomial with these coefficients, highest power first. */
function horner(coefficients: readonly number[], x: number): number {
  let value = 0;
  for (const coefficient of coefficients) value = value * x + coefficient;
  return value;
}

const CENTRE_TOP = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
];
const CENTRE_BOTTOM = [
  5226.495278852854, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1,
];
const MIDDLE_TOP = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
];
const MIDDLE_BOTTOM = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1,
];
const TAIL_TOP = [
  2.0103343992922881e-7, 0.000027115555687434876, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
];
const TAIL_BOTTOM = [
  2.0442631033899397e-15, 1.421511758316446e-7, 0.000018463183175100548, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
];
