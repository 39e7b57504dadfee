import type { Region } from '@/lib/geography/types';
import type { SeasonCounts } from '@/lib/stats/spread/types';
import type { Eppo, Group } from '@/lib/vocabulary/terms';
import { generateScenario } from '../scenario/generate-scenario';
import { SIZE_PLANS, scenarioRegion } from '../scenario/sizes';
import type { Truth } from '../scenario/truth';

export interface DemoCounts {
  region: Region;
  truth: Truth;
  /** Closed seasons by county, in the region's order: populations with a whole-plant result, each once. */
  counts(species: Eppo, group: Group): SeasonCounts;
  pairs: { species: Eppo; group: Group }[];
}

/** The demonstration's simulated screening, straight from its generator: no sheet is read and nothing is withheld. */
export function demoCounts(seed = 1): DemoCounts {
  const region = scenarioRegion('default');
  const { firstSeason, lastClosed } = SIZE_PLANS.default;
  const seasons = Array.from({ length: lastClosed - firstSeason + 1 }, (_, t) => firstSeason + t);
  const { sheets, truth } = generateScenario({ size: 'default', seed, region });
  const placeOf = new Map(region.counties.map(({ fips }, place) => [fips, place]));
  const samples = new Map<string, Map<string, { cell: number; resistant: boolean }>>();
  for (const sheet of sheets) {
    for (const { cells, truth: row } of sheet.rows) {
      const { season, county, species, group, assay, result } = row;
      const place = placeOf.get(county);
      const counts = season <= lastClosed && assay === 'whole plant' && place !== undefined;
      if (!counts || result === null || result === 'inconclusive') continue;
      const pair = `${species}|${group}`;
      const own = samples.get(pair) ?? new Map<string, { cell: number; resistant: boolean }>();
      samples.set(pair, own);
      const key = `${season}|${cells['Sample #']}`;
      const before = own.get(key)?.resistant ?? false;
      own.set(key, {
        cell: (season - firstSeason) * region.counties.length + place,
        resistant: before || result === 'resistant',
      });
    }
  }
  return {
    region,
    truth,
    pairs: truth.pairs.map(({ species, group }) => ({ species, group })),
    counts(species, group) {
      const places = region.counties.length;
      const size = seasons.length * places;
      const found = { seasons, places, tested: new Int32Array(size), resistant: new Int32Array(size) };
      for (const { cell, resistant } of samples.get(`${species}|${group}`)?.values() ?? []) {
        found.tested[cell]! += 1;
        found.resistant[cell]! += Number(resistant);
      }
      return found;
    },
  };
}
