import { deriveSeed, Random } from '@/lib/stats/random';
import { arrivals } from '@/lib/stats/spread/arrivals';
import { nearness } from '@/lib/stats/spread/nearness';
import { lineSpeeds } from '@/lib/stats/spread/speed/line-speeds';
import { type NoSpeed, type Speed, speedOfSpread } from '@/lib/stats/spread/speed/speed';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import { byDistrict, type Ground } from './screening';
import { OTHERS, OWN_MODELS, STANDING, type Way } from './ways';

export interface SpeedRow {
  way: Way;
  grain: 'county' | 'district';
  found: (Speed | NoSpeed)[];
  /** Least squares of the distance of first finds from the estimated origin on their season, and its inverse. */
  simple: { leastSquares: number; inverse: number }[];
}

/** Testing follows finds in all of them. `own` programmes for each model's own fronts, `others` for each other way and by district. */
export function speedRuns(
  ground: Ground,
  { own, others }: { own: number; others: number },
  seed: number,
  onProgress: (text: string) => void,
): SpeedRow[] {
  return [...OWN_MODELS, ...OTHERS, ...STANDING].flatMap((way) => {
    const runs = OWN_MODELS.includes(way) ? own : others;
    onProgress(`speed: ${way.name}`);
    const rows: [SpeedRow, SpeedRow] = [
      { way, grain: 'county', found: [], simple: [] },
      { way, grain: 'district', found: [], simple: [] },
    ];
    for (let run = 0; run < runs; run += 1) {
      const random = new Random(deriveSeed(seed, `${way.name}|${run}`));
      const counts = ground.screen('follows finds', way.plant(ground, random), random);
      const { weights, points } = ground;
      const county = speedOfSpread({ counts, points }, { weights, nearnessP: nearness(counts, weights).p });
      rows[0].found.push(county);
      if (county.kind === 'speed') rows[0].simple.push(simpleSpeeds(ground, counts, county));
      if (run >= others) continue;
      const { members, ...districts } = byDistrict(ground, counts);
      const map = { counts: districts.counts, points, members };
      rows[1].found.push(speedOfSpread(map, { weights: districts.weights, nearnessP: null }));
    }
    return rows;
  });
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
