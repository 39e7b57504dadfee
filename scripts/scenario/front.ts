import type { Region } from '@/lib/geography/types';
import { kmBetween } from './distance';
import type { Random } from './random';
import type { ShareModel } from './share-models';

/** A front from one origin: when it reaches each county, in years of the calendar with fractions. */
export interface Front {
  origin: number;
  arrivals: Float64Array;
}

/**
 * Arrival = start + distance / speed + a normal scatter; at the origin exactly the start, nowhere before it.
 * @param candidates counties among which the origin is drawn; those in the middle of the region are preferred
 * @param avoid counties that the origin keeps away from (the campuses), as far as the region allows
 */
export function raiseFront({
  region,
  model,
  firstSeason,
  candidates,
  avoid,
  random,
}: {
  region: Region;
  model: Extract<ShareModel, { kind: 'front' }>;
  firstSeason: number;
  candidates: readonly number[];
  avoid: readonly number[];
  random: Random;
}): Front {
  const origin = chooseOrigin(region, candidates, avoid, random);
  const start = firstSeason + model.startsAfter;
  const arrivals = Float64Array.from(region.counties, (county, i) => {
    const scatter = model.scatterYears * random.normal();
    if (i === origin) return start;
    return Math.max(start, start + kmBetween(region.counties[origin]!, county) / model.kmPerYear + scatter);
  });
  return { origin, arrivals };
}

function chooseOrigin(
  region: Region,
  candidates: readonly number[],
  avoid: readonly number[],
  random: Random,
): number {
  const { counties } = region;
  const centre = {
    lon: counties.reduce((sum, { lon }) => sum + lon, 0) / counties.length,
    lat: counties.reduce((sum, { lat }) => sum + lat, 0) / counties.length,
  };
  const score = (i: number) => {
    const toAvoided = Math.min(...avoid.map((a) => kmBetween(counties[a]!, counties[i]!)));
    return kmBetween(centre, counties[i]!) + Math.max(0, 150 - toAvoided);
  };
  const best = [...candidates].sort((a, b) => score(a) - score(b));
  return random.pick(best.slice(0, Math.max(1, Math.ceil(best.length / 20))));
}
