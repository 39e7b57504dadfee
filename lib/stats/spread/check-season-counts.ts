import { StatsError } from '../errors';
import type { SeasonCounts } from './types';

/**
 * @throws StatsError `bad argument` where lengths do not fit or seasons do not rise; `bad count` unless
 *   0 ≤ resistant ≤ tested
 */
export function checkSeasonCounts({ seasons, places, tested, resistant }: SeasonCounts): void {
  const cells = seasons.length * places;
  if (!(Number.isInteger(places) && places >= 0) || tested.length !== cells || resistant.length !== cells) {
    throw new StatsError(
      'bad argument',
      `Got ${tested.length} tested, ${resistant.length} resistant; expected ${seasons.length} seasons × ${places} places.`,
    );
  }
  for (let t = 0; t < seasons.length; t += 1) {
    if (!(Number.isFinite(seasons[t]!) && (t === 0 || seasons[t]! > seasons[t - 1]!))) {
      throw new StatsError('bad argument', `Season ${t} is ${seasons[t]}; expected rising numbers.`);
    }
  }
  for (let cell = 0; cell < cells; cell += 1) {
    if (!(resistant[cell]! >= 0 && resistant[cell]! <= tested[cell]!)) {
      const where = `Season ${seasons[Math.floor(cell / places)]}, place ${cell % places}`;
      throw new StatsError(
        'bad count',
        `${where}: got ${resistant[cell]} of ${tested[cell]}; expected 0 ≤ resistant ≤ tested.`,
      );
    }
  }
}
