import type { Names } from './names';
import type { Trend } from './types';
import { number, places, probability, ratio, SUBMISSIONS_CAUTION } from './wording';

/** How the share went over the seasons, for a reader without statistics. */
export function trendSentence(found: Omit<Trend, 'sentence'>, names: Names): string {
  const { species, group, from, to } = found;
  const seasons = from === null ? '' : from === to ? `, ${from}` : `, ${from} to ${to}`;
  const about = `${names.species(species)}, group ${group}${seasons}`;
  return [`${about}: ${within(found)}`, ...series(found), SUBMISSIONS_CAUTION].join(' ');
}

function within({ oddsRatio, low, high, p, grain, places: count, reason }: Omit<Trend, 'sentence'>): string {
  if (oddsRatio === null) return p === null ? reason! : `${reason} (${probability(p)})`;
  const compared = `comparing each ${grain} with itself only (${places(count, grain)}), the odds of a resistant population were multiplied by ${ratio(oddsRatio)} with each season`;
  const interval = `(95 % interval ${ratio(low!)} to ${ratio(high!)})`;
  if (low! > 1) return `${compared} ${interval}: a rise, more than chance would bring.`;
  if (high! < 1) return `${compared} ${interval}: a fall, more than chance would bring.`;
  return `${compared} ${interval}: no clear change.`;
}

function series({ series: told }: Omit<Trend, 'sentence'>): string[] {
  if (!told) return [];
  const { seasons, p, smallestP, slope, low, high } = told;
  if (smallestP === 1) return [`The region’s share was the same in all ${number(seasons)} seasons.`];
  if (smallestP !== null && smallestP > 0.05)
    return [`The ${seasons} seasons of the region’s share are too few to tell a trend from chance.`];
  const limits = low === null || high === null ? '' : `; 95 % interval ${points(low)} to ${points(high)}`;
  const said =
    p <= 0.05
      ? `${slope > 0 ? 'rose' : 'fell'} over ${number(seasons)} seasons more than chance would bring`
      : `showed no steady rise or fall over ${number(seasons)} seasons`;
  return [
    `The region’s share of what was sent ${said} (${points(slope)} percentage points a season${limits}; ${probability(p)}).`,
  ];
}

/** `+2.1`, `−0.4`. */
function points(slope: number): string {
  const value = (100 * slope).toFixed(1);
  return `${slope >= 0 ? '+' : '−'}${value.replace('-', '')}`;
}
