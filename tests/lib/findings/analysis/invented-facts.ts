import type { Fact } from '@/lib/cube/types';
import { mapTasks } from '@/lib/findings/analysis/map-tasks';
import { squareKey, squareRegion } from '../invented';

const SIDE = 6;

/** Invented: a land of 36 square counties half a degree apart, in three districts. */
export const region = (() => {
  const flat = squareRegion(SIDE, SIDE);
  const counties = flat.counties.map((county) => ({
    ...county,
    lon: -100 + Number(county.fips[3]) / 2,
    lat: 40 + Number(county.fips[1]) / 2,
  }));
  return { ...flat, counties };
})();

export function factOf(county: string, over: Partial<Fact> = {}): Fact {
  return {
    population: `${county}-${over.season ?? 2022}-${over.operation ?? ''}`,
    county,
    season: 2022,
    species: 'ABCDE',
    group: 9,
    assay: 'whole plant',
    design: 'submitted',
    crop: null,
    funder: null,
    operation: `farm in ${county}`,
    result: 'susceptible',
    actives: [],
    publicShare: true,
    ...over,
  };
}

/** Invented: five populations in each county and season; nearly all resistant in a block of nine, few elsewhere. */
export const facts: Fact[] = region.counties.flatMap(({ fips }, place) =>
  [2022, 2023].flatMap((season) =>
    Array.from({ length: 5 }, (_, k) => {
      const inBlock = /^r[123]c[123]$/.test(fips);
      const isResistant = inBlock ? k > 0 : (place + season) % 7 === k;
      return factOf(fips, {
        season,
        operation: inBlock ? 'one farm' : `farm ${k} in ${fips}`,
        population: `${fips}-${season}-${k}`,
        result: isResistant ? 'resistant' : 'susceptible',
        design: k === 4 ? 'random' : 'submitted',
      });
    }),
  ),
);

export const periods = [
  { first: 2022, last: 2022 },
  { first: 2022, last: 2023 },
];

export const tasks = (seed = 1) =>
  mapTasks({ facts, region, periods, seed, speciesName: () => 'Invented weed' });

export { squareKey };
