import { StatsError } from '../errors';

export interface KnoxPoisson {
  /** Close pairs to be expected if closeness in space and in time had nothing to do with each other. */
  expected: number;
  /** Chance of so many or more, if they were Poisson, in (0, 1]. */
  p: number;
}

/**
 * Knox's own quick test, for comparison with published figures. Pairs of the same event depend on each other and testing
 * is not allowed for: where it matters use `knox`.
 *
 * @param pairs all pairs; of them `closeInSpace`, `closeInTime`, and `observed` in both
 * @policy Counts the observed number itself (at least as many); programs that leave it out give a smaller p.
 * @throws StatsError `bad count`
 * @source Knox 1964, British Journal of Preventive and Social Medicine 18:17–24 (from memory)
 * @cost O(observed)
 */
export function knoxPoisson(
  observed: number,
  { pairs, closeInSpace, closeInTime }: { pairs: number; closeInSpace: number; closeInTime: number },
): KnoxPoisson {
  const whole = [observed, pairs, closeInSpace, closeInTime].every((n) => Number.isSafeInteger(n) && n >= 0);
  if (!(whole && pairs > 0 && observed <= Math.min(closeInSpace, closeInTime))) {
    throw new StatsError(
      'bad count',
      `Got ${observed} of ${closeInSpace} and ${closeInTime}, of ${pairs} pairs.`,
    );
  }
  if (Math.max(closeInSpace, closeInTime) > pairs) {
    throw new StatsError('bad count', `Got ${closeInSpace} and ${closeInTime} close of ${pairs} pairs.`);
  }
  const expected = (closeInSpace * closeInTime) / pairs;
  return { expected, p: observed === 0 ? 1 : Math.max(Number.MIN_VALUE, poissonAtLeast(observed, expected)) };
}

function poissonAtLeast(count: number, mean: number): number {
  if (mean === 0) return 0;
  // From the observed number on, so that a small tail keeps its digits.
  let log = -mean;
  for (let k = 1; k <= count; k += 1) log += Math.log(mean / k);
  if (count < mean) {
    let below = 0;
    let term = Math.exp(log);
    for (let k = count; k > 0; k -= 1) {
      term *= k / mean;
      below += term;
    }
    return Math.min(1, 1 - below);
  }
  let above = 0;
  let term = Math.exp(log);
  for (let k = count + 1; term > above * 1e-17; k += 1) {
    above += term;
    term *= mean / k;
  }
  return above;
}
