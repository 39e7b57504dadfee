import { betaQuantile, incompleteBeta, logGamma } from '../beta';
import { normalQuantile } from '../normal';

/**
 * Probability that F with (df, errorDf) degrees of freedom is at least `f`; `errorDf` Infinity is chi-square / df.
 * @source NIST DLMF 8.17 (incomplete beta function); relation to F: Abramowitz & Stegun 26.6.2 (from memory)
 */
export function fTail(f: number, df: number, errorDf: number): number {
  if (errorDf === Number.POSITIVE_INFINITY) return chiSquareTail(f * df, df);
  if (!(f > 0)) return 1;
  return incompleteBeta(errorDf / 2, df / 2, errorDf / (errorDf + df * f));
}

/** Probability that chi-square with `df` degrees of freedom is at least `x`; relative error about 1e-12. */
export function chiSquareTail(x: number, df: number): number {
  if (!(x > 0)) return 1;
  return upperGamma(df / 2, x / 2);
}

/** The t with a share of `level` of Student's distribution between −t and t; `df` Infinity is the normal one. */
export function studentQuantile(level: number, df: number): number {
  if (df === Number.POSITIVE_INFINITY) return normalQuantile((1 + level) / 2);
  const x = betaQuantile(1 - level, df / 2, 0.5);
  return Math.sqrt((df * (1 - x)) / x);
}

/** Regularised upper incomplete gamma function: series DLMF 8.7.1 below a + 1, continued fraction DLMF 8.9.2 above. */
function upperGamma(a: number, x: number): number {
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let k = 1; term > sum * 1e-17; k += 1) {
      term *= x / (a + k);
      sum += term;
    }
    return 1 - front * sum;
  }
  let value = 0;
  // Backwards from far enough out: the fraction has long settled there for x ≥ a + 1.
  for (let k = 400; k >= 1; k -= 1) value = (k * (k - a)) / (x + 2 * k + 1 - a - value);
  return front / (x + 1 - a - value);
}
