import { mannKendall } from '@/lib/stats/trend/mann-kendall';
import { stratifiedTrend } from '@/lib/stats/trend/stratified-trend';
import { theilSen } from '@/lib/stats/trend/theil-sen';
import type { Season } from '@/lib/vocabulary/terms';
import { knownInSeason } from './known-places';
import { CODES, type Names } from './names';
import { trendSentence } from './trend-sentence';
import type { Observation, Trend } from './types';

export interface TrendInput {
  /** Of this species and group, single seasons, of any kinds of place; what lies outside `seasons` is passed over. */
  observations: readonly Observation[];
  /** Closed seasons, ascending: one under way is never compared with a closed one. */
  seasons: readonly Season[];
  grain: Trend['grain'];
  species: Trend['species'];
  group: Trend['group'];
  names?: Names;
}

/** Seasons with a known share that a series needs before its rise or fall is spoken of. */
export const FEWEST_SEASONS = 4;

/**
 * Does the share rise or fall over the seasons? First each place with itself only (logistic trend with a level of its own
 * for each place, so that neither new places nor uneven testing look like a change); beside it the series of the region's
 * shares as they were sent (Mann–Kendall, exact; Theil–Sen), which uneven testing does move.
 *
 * @throws RangeError for a place given twice in a season; StatsError for impossible counts
 */
export function findTrend(input: TrendInput): Trend {
  const { seasons, grain, species, group, names = CODES } = input;
  const known = seasons.map((season) => knownInSeason(input.observations, grain, season));
  const places = [...new Set(known.flatMap((list) => list.map(({ place }) => place)))].sort();
  const counts = {
    resistant: new Float64Array(places.length * seasons.length),
    tested: new Float64Array(places.length * seasons.length),
  };
  const row = new Map(places.map((place, i) => [place, i * seasons.length]));
  known.forEach((list, season) => {
    for (const { place, tested, resistant } of list) {
      counts.tested[row.get(place)! + season] = tested;
      counts.resistant[row.get(place)! + season] = resistant;
    }
  });
  const enough = known.filter((list) => list.length > 0).length >= 2;
  const within = enough ? stratifiedTrend({ ...counts, scores: seasons }) : null;
  const found: Omit<Trend, 'sentence'> = {
    kind: 'trend',
    species,
    group,
    from: seasons[0] ?? null,
    to: seasons.at(-1) ?? null,
    grain,
    places: within?.places ?? 0,
    oddsRatio: within?.oddsRatio ?? null,
    low: within ? (within.robustLow ?? within.low) : null,
    high: within ? (within.robustHigh ?? within.high) : null,
    p: within ? (within.robustP ?? within.p) : null,
    series: seriesOf(input),
    reason: within ? within.reason && REASONS[within.reason] : REASONS['too few seasons'],
  };
  return { ...found, sentence: trendSentence(found, names) };
}

const REASONS = {
  'too few seasons': 'No place has a known count in two closed seasons, so no trend can be told.',
  'nothing varies':
    'In no place were some but not all resistant over two seasons or more, so no trend can be told.',
  infinite: 'No place points to a fall, so the size of the rise cannot be estimated.',
  zero: 'No place points to a rise, so the size of the fall cannot be estimated.',
} as const;

/** The shares of the region, season by season; null where too few are known. */
function seriesOf(input: TrendInput): Trend['series'] {
  const known = input.seasons.flatMap((season) => knownInSeason(input.observations, 'region', season));
  if (known.length < FEWEST_SEASONS) return null;
  const seasons = known.map(({ period }) => period.first);
  const shares = known.map(({ tested, resistant }) => resistant / tested);
  const { p, smallestP } = mannKendall(shares);
  const { slope, low, high } = theilSen(seasons, shares);
  return { seasons: known.length, p, smallestP, slope, low, high };
}
