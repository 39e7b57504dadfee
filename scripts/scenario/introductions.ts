import type { Region } from '@/lib/geography/types';
import { kmBetween } from './distance';
import type { Random } from './random';
import type { ShareModel } from './share-models';

/** Several introductions: first season in which each county holds resistant populations; NaN = not yet. */
export interface Introductions {
  origins: { county: number; season: number }[];
  jumps: { from: number; to: number; season: number }[];
  arrivals: Float64Array;
}

/**
 * Three (or so many as the model starts) introductions far apart, each passed on to adjoining counties season by
 * season, with rare long jumps to anywhere.
 * @param candidates counties in which an introduction may happen and to which a jump may lead
 * @param keptClean a county that is not reached before the given season, when a long jump reaches it
 */
export function introduce({
  region,
  model,
  seasons,
  candidates,
  keptClean,
  random,
}: {
  region: Region;
  model: Extract<ShareModel, { kind: 'introductions' }>;
  seasons: readonly number[];
  candidates: readonly number[];
  keptClean: { county: number; until: number };
  random: Random;
}): Introductions {
  const arrivals = new Float64Array(region.counties.length).fill(Number.NaN);
  const places = farApart(region, model.startAfter.length, candidates, keptClean.county, random);
  const origins = places.map((county, i) => ({ county, season: seasons[0]! + model.startAfter[i]! }));
  const jumps: Introductions['jumps'] = [];

  for (const season of seasons) {
    const held = [...arrivals.keys()].filter((i) => arrivals[i]! < season);
    const reach = (county: number) => {
      if (county !== keptClean.county && Number.isNaN(arrivals[county]!)) arrivals[county] = season;
    };
    for (const origin of origins) if (origin.season === season) reach(origin.county);
    for (const from of held) {
      for (const to of region.neighbours[from]!) if (random.chance(model.toNeighbour)) reach(to);
      if (!random.chance(model.longJump)) continue;
      const to = random.pick(candidates);
      if (to === keptClean.county || !Number.isNaN(arrivals[to]!)) continue;
      jumps.push({ from, to, season });
      reach(to);
    }
    if (season === keptClean.until) {
      jumps.push({ from: origins[0]!.county, to: keptClean.county, season });
      arrivals[keptClean.county] = season;
    }
  }
  return { origins, jumps, arrivals };
}

/** Counties drawn one after the other, each the best of a dozen draws by its distance to those before it. */
function farApart(
  region: Region,
  count: number,
  candidates: readonly number[],
  keptClean: number,
  random: Random,
): number[] {
  const chosen: number[] = [];
  const clearance = (i: number) =>
    Math.min(...[keptClean, ...chosen].map((c) => kmBetween(region.counties[c]!, region.counties[i]!)));
  while (chosen.length < count) {
    const draws = Array.from({ length: 12 }, () => random.pick(candidates));
    chosen.push(draws.reduce((best, i) => (clearance(i) > clearance(best) ? i : best)));
  }
  return chosen;
}
