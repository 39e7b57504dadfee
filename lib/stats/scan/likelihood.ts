import type { ScanModel } from './types';

/**
 * Logarithm of the likelihood ratio of a window: a rate of its own inside against one rate everywhere.
 *
 * @param totals all resistant, and the size of everything (`bernoulli`: tested; `poisson`: any measure of expectation)
 * @param direction a window on the other side has 0
 * @returns a function of the resistant and the size inside a window: ≥ 0. For a given size it rises with the distance
 *   of the count from what is expected, and for a given count with the distance of the size.
 * @source Kulldorff 1997, Communications in Statistics – Theory and Methods 26:1481–1496 (both models; from memory)
 */
export function likelihoodRatio(
  model: ScanModel,
  { resistant: C, size: N }: { resistant: number; size: number },
  direction: 'high' | 'low',
): (resistant: number, size: number) => number {
  const ratio = model === 'bernoulli' ? bernoulli : poisson;
  return (c, n) => {
    const excess = c * N - C * n;
    return (direction === 'high' ? excess > 0 : excess < 0) ? Math.max(0, ratio(c, n)) : 0;
  };

  function bernoulli(c: number, n: number): number {
    const perTested = C / N;
    const perOther = (N - C) / N;
    return (
      term(c, n * perTested) +
      term(n - c, n * perOther) +
      term(C - c, (N - n) * perTested) +
      term(N - n - (C - c), (N - n) * perOther)
    );
  }

  function poisson(c: number, n: number): number {
    const expected = (C * n) / N;
    return term(c, expected) + term(C - c, C - expected);
  }
}

/** x · ln(x / expected), and its limit 0 where nothing is observed. */
function term(x: number, expected: number): number {
  return x > 0 ? x * Math.log(x / expected) : 0;
}
