import type { Region } from '@/lib/geography/types';
import { kmBetween } from './distance';
import { PARAMETERS } from './parameters';
import type { Random } from './random';

/** Who is tested how much before anything is found: uneven on purpose. County indices into `region.counties`. */
export interface Effort {
  /** Two counties with a campus. */
  campuses: [number, number];
  /** Relative effort of each county; 0 for those that send nothing and those whose one population is placed apart. */
  weights: Float64Array;
  none: number[];
  onePopulation: number[];
  oneOperation: number[];
  /** Counties with nothing special about them: here the patterns are planted. */
  ordinary: number[];
}

/**
 * Lays out the effort: little in the west, three times as much around two campuses in the east, a quarter of the
 * counties with none (more of them where effort is low anyway), a few with one population or one operation.
 */
export function layOutEffort(region: Region, random: Random): Effort {
  const campuses = chooseCampuses(region, random);
  const eastness = eastnessIn(region);
  const weights = Float64Array.from(region.counties, (county) => {
    const near = campuses.some((c) => kmBetween(region.counties[c]!, county) <= PARAMETERS.campusReachKm);
    const spreadOfEffort = Math.exp(0.35 * random.normal());
    return (
      effortByLongitude(eastness(county.lon)) * spreadOfEffort * (near ? PARAMETERS.effortNearCampus : 1)
    );
  });

  const total = region.counties.length;
  const fromLeast = [...weights.keys()]
    .filter((i) => !campuses.includes(i))
    .map((i) => ({ i, key: Math.log(1 - random.uniform()) * weights[i]! }))
    .sort((a, b) => b.key - a.key)
    .map(({ i }) => i);
  const none = fromLeast.slice(0, Math.round(total * PARAMETERS.countiesWithNone));
  const rest = fromLeast.slice(none.length);
  const ones = Math.max(1, Math.round(total * PARAMETERS.countiesWithOnePopulation));
  const alone = Math.max(1, Math.round(total * PARAMETERS.countiesWithOneOperation));
  const onePopulation = rest.slice(0, ones);
  const oneOperation = rest.slice(ones, ones + alone);
  for (const i of [...none, ...onePopulation]) weights[i] = 0;
  const ordinary = [...campuses, ...rest.slice(ones + alone)].sort((a, b) => a - b);
  return { campuses, weights, none, onePopulation, oneOperation, ordinary };
}

/** 0 at the western edge of the region, 1 at the eastern one. */
function eastnessIn(region: Region): (lon: number) => number {
  const lons = region.counties.map((county) => county.lon);
  const west = Math.min(...lons);
  const width = Math.max(1e-9, Math.max(...lons) - west);
  return (lon) => (lon - west) / width;
}

function effortByLongitude(east: number): number {
  const rise = 1 / (1 + Math.exp(-(east - 0.4) / 0.06));
  return PARAMETERS.effortInTheWest + (1 - PARAMETERS.effortInTheWest) * rise;
}

/** Two counties of the eastern half, the second among those farthest from the first. */
function chooseCampuses(region: Region, random: Random): [number, number] {
  const eastness = eastnessIn(region);
  const eastern = [...region.counties.keys()].filter((i) => {
    const east = eastness(region.counties[i]!.lon);
    return east > 0.5 && east < 0.9;
  });
  const first = random.pick(eastern);
  const byDistance = eastern
    .filter((i) => i !== first)
    .sort((a, b) => distance(region, first, b) - distance(region, first, a));
  return [first, random.pick(byDistance.slice(0, Math.ceil(byDistance.length / 4)))];
}

function distance(region: Region, a: number, b: number): number {
  return kmBetween(region.counties[a]!, region.counties[b]!);
}
