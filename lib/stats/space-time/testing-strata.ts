import { StatsError } from '../errors';

/**
 * Places that were tested in the same seasons, all of them, get the same code: among these a season of one place may
 * stand for the season of another without a find where nothing was tested.
 *
 * @param tested counts of place × season, season last
 * @returns a code for each place, from 0
 * @throws StatsError `bad argument` where the counts are not places × seasons
 * @source our own reading of “permutation within testing dates”
 */
export function testingStrata(tested: ArrayLike<number>, seasons: number): Int32Array {
  if (!(Number.isInteger(seasons) && seasons >= 1) || tested.length % seasons !== 0) {
    throw new StatsError(
      'bad argument',
      `Got ${tested.length} counts, ${seasons} seasons; expected place × season.`,
    );
  }
  const codes = new Map<string, number>();
  return Int32Array.from({ length: tested.length / seasons }, (_, place) => {
    let pattern = '';
    for (let t = 0; t < seasons; t += 1) pattern += tested[place * seasons + t]! > 0 ? '1' : '0';
    if (!codes.has(pattern)) codes.set(pattern, codes.size);
    return codes.get(pattern)!;
  });
}
