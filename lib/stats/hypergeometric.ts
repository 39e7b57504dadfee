import { StatsError } from './errors';

/** So many are drawn without replacement out of a total that holds so many marked ones. */
export interface HypergeometricDraw {
  total: number;
  marked: number;
  drawn: number;
}

export interface HypergeometricTest {
  /** Chance of so many marked ones or more. */
  greater: number;
  /** Chance of so many or fewer. */
  less: number;
  /** Two-sided: twice the smaller of the two, at most 1. */
  twoSided: number;
}

/**
 * How surprising is a count of marked ones among those drawn, when each draw is equally likely? Exact: Fisher's test
 * of a 2 × 2 table with all margins given.
 *
 * @param count marked ones among the drawn
 * @param midP counts the observed count itself by half: no longer sure to hold the level, but near it on average
 * @returns each in (0, 1], relative error about 1e-13; a chance below 5e-324 is given as that
 * @policy With no marked ones, or none but marked ones, only one count is possible and nothing is surprising: 1 (half
 *   for the one-sided mid-p).
 * @throws StatsError `nothing tested` for a total of 0; `bad count` where numbers are not whole or the count cannot be
 * @source Fisher 1935, The Design of Experiments, section 11 (from memory); mid-p: Lancaster 1961, JASA 56:223–234
 *   (from memory). The terms are summed outwards from the most likely count by their ratio, so no factorials are needed.
 * @cost O(standard deviation of the count)
 * @example hypergeometricTest(3, { total: 8, marked: 4, drawn: 4 }).greater; // 17 / 70, the lady tasting tea
 */
export function hypergeometricTest(
  count: number,
  draw: HypergeometricDraw,
  { midP = false }: { midP?: boolean } = {},
): HypergeometricTest {
  check(count, draw);
  const { total, marked, drawn } = draw;
  const others = total - marked - drawn;
  const mode = Math.floor(((drawn + 1) * (marked + 1)) / (total + 2));
  let below = 0;
  let at = mode === count ? 1 : 0;
  let above = 0;
  if (mode < count) below = 1;
  else if (mode > count) above = 1;
  let term = 1;
  for (let x = mode + 1; term > 0; x += 1) {
    term *= ((marked - x + 1) * (drawn - x + 1)) / (x * (others + x));
    if (x < count) below += term;
    else if (x === count) at = term;
    else {
      above += term;
      if (term <= NEGLIGIBLE * (at + above)) break;
    }
  }
  term = 1;
  for (let x = mode - 1; term > 0; x -= 1) {
    term *= ((x + 1) * (others + x + 1)) / ((marked - x) * (drawn - x));
    if (x > count) above += term;
    else if (x === count) at = term;
    else {
      below += term;
      if (term <= NEGLIGIBLE * (at + below)) break;
    }
  }
  const sum = below + at + above;
  const own = midP ? at / 2 : at;
  const greater = Math.max(Number.MIN_VALUE, (above + own) / sum);
  const less = Math.max(Number.MIN_VALUE, (below + own) / sum);
  return { greater, less, twoSided: Math.min(1, 2 * Math.min(greater, less)) };
}

/** What is left over behind such a term does not show in a double. */
const NEGLIGIBLE = 1e-18;

function check(count: number, { total, marked, drawn }: HypergeometricDraw): void {
  const whole = [count, total, marked, drawn].every((each) => Number.isSafeInteger(each));
  const within = marked >= 0 && drawn >= 0 && marked <= total && drawn <= total;
  if (
    !(whole && within && count >= drawn + marked - total && count >= 0 && count <= Math.min(drawn, marked))
  ) {
    throw new StatsError(
      'bad count',
      `Got ${count} of ${drawn} drawn, with ${marked} of ${total} marked; expected whole numbers that go together.`,
    );
  }
  if (total === 0) {
    throw new StatsError('nothing tested', 'The total is 0, so nothing can be drawn. Leave it out.');
  }
}
