import { reassurance } from '@/lib/stats/reassurance';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { Fips } from '@/lib/vocabulary/terms';
import { number, percent, populations } from '../wording';
import type { CountyReassurance } from './types';

/**
 * For each county where nothing was found so far: which share its tests of the newest seasons still allow, and how many more
 * populations, all clean, would bring that to a tenth or below.
 *
 * @param counts of closed seasons; a find of any of them ends the reassurance, older clean tests are no part of it
 * @param newest how many seasons count as new
 * @returns in the order of `counties`; those never tested with an upper limit of 1
 */
export function reassureCounties(
  counts: SeasonCounts,
  counties: readonly Fips[],
  newest: number,
): CountyReassurance[] {
  const { seasons, places, tested, resistant } = counts;
  const rows = Array.from(seasons, (_, t) => t);
  const from = Math.max(0, seasons.length - newest);
  return counties.flatMap((county, place) => {
    const sum = (values: Int32Array, first: number) =>
      rows.slice(first).reduce((total, t) => total + values[t * places + place]!, 0);
    if (sum(resistant, 0) > 0) return [];
    const own = sum(tested, from);
    const { upper, more } = reassurance(0, own)!;
    const last = rows.findLast((t) => tested[t * places + place]! > 0);
    return [{ county, tested: own, lastTested: last === undefined ? null : seasons[last]!, upper, more }];
  });
}

/** `Ness County, KS: none found in 6 screened in 2022–2024, which still allows …`. */
export function reassuranceSentence(
  { tested, lastTested, upper, more }: CountyReassurance,
  name: string,
  period: string,
): string {
  if (tested === 0) {
    const before =
      lastTested === null
        ? 'never screened'
        : `not screened in ${period} (none found before, last in ${lastTested})`;
    return `${name}: ${before}, so nothing can be said of it. ${populations(more)}, all clean, would show that at most 10 % are resistant.`;
  }
  const allows = `none found in ${tested} screened in ${period}, which still allows up to ${percent(upper)} of populations like these`;
  return more === 0
    ? `${name}: ${allows}.`
    : `${name}: ${allows}; ${number(more)} more, all clean, would bring that to 10 % or less.`;
}
