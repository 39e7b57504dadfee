/** So many are drawn without replacement out of a total that holds so many marked ones. */
export interface Draw {
  total: number;
  marked: number;
  drawn: number;
}

/**
 * The chance that draws of which each is equally likely hold so many marked ones in all, or more: exact, the
 * hypergeometric distributions folded into one.
 *
 * @returns (0, 1]; 1 without a draw
 * @cost O(draws · largest count · all counts)
 */
export function chanceOfAsMany(count: number, draws: readonly Draw[]): number {
  let chances = Float64Array.of(1);
  for (const draw of draws) {
    const own = distribution(draw);
    const folded = new Float64Array(chances.length + own.length - 1);
    chances.forEach((chance, at) => {
      own.forEach((each, more) => {
        folded[at + more]! += chance * each;
      });
    });
    chances = folded;
  }
  const tail = chances.subarray(Math.max(0, count)).reduce((sum, chance) => sum + chance, 0);
  return Math.min(1, Math.max(Number.MIN_VALUE, tail));
}

/** Chances of 0, 1, … marked ones. */
function distribution({ total, marked, drawn }: Draw): Float64Array {
  const least = Math.max(0, drawn + marked - total);
  const most = Math.min(drawn, marked);
  const chances = new Float64Array(most + 1);
  // Terms by their ratio, scaled by the largest so far, so that none overflows.
  let term = 1;
  for (let x = least; x <= most; x += 1) {
    chances[x] = term;
    term *= ((marked - x) * (drawn - x)) / ((x + 1) * (total - marked - drawn + x + 1));
    if (term > 1e200) {
      for (let y = least; y <= x; y += 1) chances[y]! /= term;
      term = 1;
    }
  }
  const sum = chances.reduce((all, chance) => all + chance, 0);
  return chances.map((chance) => chance / sum);
}
