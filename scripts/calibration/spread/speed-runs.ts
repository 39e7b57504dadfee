import { deriveSeed, Random } from '@/lib/stats/random';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { nearness } from '@/lib/stats/spread/nearness';
import { lineSpeeds } from '@/lib/stats/spread/speed/line-speeds';
import { type NoSpeed, type Speed, speedOfSpread } from '@/lib/stats/spread/speed/speed';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import { byDistrict, type Ground } from './screening';
import { OTHERS, OWN_MODELS, STANDING, type Way } from './ways';

export interface SpeedRow {
  /** Its name. */
  way: string;
  grain: 'county' | 'district';
  found: (Told | { kind: 'no speed'; reason: NoSpeed['reason'] })[];
  /** Least squares of the distance of first finds from the estimated origin on their season, and its inverse. */
  simple: { leastSquares: number; inverse: number }[];
}

export interface Told {
  kind: 'speed';
  speed: number;
  low: number;
  high: number;
  origins: number;
}

/** All ways, those that the models suppose first. */
export const WAYS: readonly Way[] = [...OWN_MODELS, ...OTHERS, ...STANDING];

/**
 * Programmes in which a way of spreading is planted, and which speed is told of them, by county and by district. Testing
 * follows finds in all of them.
 *
 * @param runs programmes by county; `byDistrict` of them also by district
 */
export function speedRuns(
  ground: Ground,
  way: Way,
  { runs, byDistrict: districts }: { runs: number; byDistrict: number },
  seed: number,
): [SpeedRow, SpeedRow] {
  const rows: [SpeedRow, SpeedRow] = [
    { way: way.name, grain: 'county', found: [], simple: [] },
    { way: way.name, grain: 'district', found: [], simple: [] },
  ];
  for (let run = 0; run < runs; run += 1) {
    const random = new Random(deriveSeed(seed, `${way.name}|${run}`));
    const counts = ground.screen('follows finds', way.plant(ground, random), random);
    const { weights, points } = ground;
    const county = speedOfSpread({ counts, points }, { weights, nearnessP: nearness(counts, weights).p });
    rows[0].found.push(short(county));
    if (county.kind === 'speed') rows[0].simple.push(simpleSpeeds(ground, counts, county));
    if (run >= districts) continue;
    const { members, ...own } = byDistrict(ground, counts);
    const map = { counts: own.counts, points, members };
    rows[1].found.push(short(speedOfSpread(map, { weights: own.weights, nearnessP: null })));
  }
  return rows;
}

function short(found: Speed | NoSpeed): SpeedRow['found'][number] {
  if (found.kind === 'no speed') return { kind: found.kind, reason: found.reason };
  const { kind, speed, low, high, fit } = found;
  return { kind, speed, low, high, origins: fit.origins.length };
}

function simpleSpeeds(ground: Ground, counts: SeasonCounts, { fit }: Speed) {
  const { firstFound } = arrivals(counts);
  const { counties } = ground.region;
  const [origin] = fit.origins;
  const away = (place: number) =>
    (counties[place]!.lon - origin!.x) ** 2 * 0.58 + (counties[place]!.lat - origin!.y) ** 2;
  const nearest = counties.reduce((best, _, place) => (away(place) < away(best) ? place : best), 0);
  const found = counties.flatMap((_, place) => (firstFound[place] === -1 ? [] : [place]));
  const { leastSquares, inverse } = lineSpeeds(
    found.map((place) => counts.seasons[firstFound[place]!]!),
    found.map((place) => ground.distance(nearest, place)),
  );
  return { leastSquares, inverse: inverse ?? Number.NaN };
}
