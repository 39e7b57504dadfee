import { type BackTest, backTest } from '@/lib/findings/spread/back-test';
import { buildWeights } from '@/lib/stats/weights';
import { species as speciesOf } from '@/lib/vocabulary/species';
import type { Calibration } from '../calibrate';
import { latentShare, plant } from '../scenario/planting';
import { SIZE_PLANS } from '../scenario/sizes';
import { plantedSpecies } from '../scenario/species-plans';
import { type DemoCounts, demoCounts } from './demo-counts';
import { lookNextPage } from './look-next-page';

/** The two pairs that spread, and two that do not. */
export const LOOKED_AT = [
  { species: 'KCHSC', group: 27, about: 'a front of 40 km a year from one origin' },
  { species: 'AMAPA', group: 10, about: 'three introductions and rare long jumps' },
  { species: 'AVEFA', group: 1, about: 'no spread: there from the start, the share rising everywhere alike' },
  { species: 'SORHA', group: 2, about: 'no spread: there from the start, more in one standing cluster' },
] as const;

export interface LookedAt {
  name: string;
  about: string;
  /** Of the demonstration, and of other seeds. */
  demonstration: BackTest;
  others: BackTest[];
}

/** Of each season of the simulated scenario: how many of the counties that the list of where to look names were found? */
export const lookNextBackTest: Calibration = {
  document: 'look-next-back-test.md',
  async run(maps, date, onProgress) {
    const seeds = Array.from({ length: Math.max(2, Math.round(maps / 50)) }, (_, k) => FIRST_OTHER + k);
    const demonstration = backTests(demoCounts(SEED), SEED);
    const others = seeds.map((seed) => {
      onProgress(`scenario of seed ${seed}`);
      return backTests(demoCounts(seed), seed);
    });
    const pairs = LOOKED_AT.map(
      ({ species, group, about }, k): LookedAt => ({
        ...{ name: `${speciesOf(species)?.commonName ?? species} × group ${group}`, about },
        demonstration: demonstration[k]!,
        others: others.map((tests) => tests[k]!),
      }),
    );
    return lookNextPage({ date, seed: SEED, seeds, pairs });
  },
};

/** Of the demonstration. */
const SEED = 1;
/** Seeds from here on were not looked at while the method was worked out. */
const FIRST_OTHER = 22;

function backTests(demo: DemoCounts, seed: number): BackTest[] {
  const { counties, neighbours } = demo.region;
  const weights = buildWeights(neighbours, 'binary');
  const points = {
    x: counties.map(({ lon }) => lon),
    y: counties.map(({ lat }) => lat),
    metric: 'great circle' as const,
  };
  return LOOKED_AT.map(({ species, group }) =>
    backTest({
      ...{ species, group, placeKind: 'county', weights, points },
      places: counties.map(({ fips }) => fips),
      counts: demo.counts(species, group),
      planted: plantedShares(demo, seed, species, group),
    }),
  );
}

/** Share of populations that are resistant by season and county, as the scenario plants it. */
function plantedShares({ region }: DemoCounts, seed: number, eppo: string, group: number): Float64Array {
  const plan = SIZE_PLANS.default;
  const species = plantedSpecies();
  const planting = plant(region, plan, species, seed);
  const test = species.find((one) => one.eppo === eppo)!.tests.find((one) => one.group === group)!;
  const places = region.counties.length;
  return Float64Array.from({ length: (plan.lastClosed - plan.firstSeason + 1) * places }, (_, cell) =>
    latentShare(planting, test, {
      county: cell % places,
      season: plan.firstSeason + Math.floor(cell / places),
      ...{ firstSeason: plan.firstSeason, heavy: false },
    }),
  );
}
