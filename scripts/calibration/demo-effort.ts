import type { Region } from '@/lib/geography/types';
import { generateScenario } from '../scenario/generate-scenario';
import { SIZE_PLANS, scenarioRegion } from '../scenario/sizes';

/** For each county of the demonstration how many populations of its leading pair were screened in its last three seasons. */
export function demoEffort(): { region: Region; tested: number[] } {
  const region = scenarioRegion('default');
  const { lastClosed } = SIZE_PLANS.default;
  const screened = new Map<string, Map<string, Set<string>>>();
  for (const sheet of generateScenario({ size: 'default', seed: 1, region }).sheets) {
    for (const { cells, truth } of sheet.rows) {
      const { season, county, species, group, assay, result } = truth;
      const counts = season > lastClosed - 3 && season <= lastClosed && assay === 'whole plant';
      if (!counts || result === null || result === 'inconclusive') continue;
      const pair = entry(screened, `${species}|${group}`, () => new Map<string, Set<string>>());
      entry(pair, county, () => new Set<string>()).add(`${season}|${cells['Sample #']}`);
    }
  }
  const totals = [...screened.values()].map((counties) => ({
    counties,
    total: [...counties.values()].reduce((sum, samples) => sum + samples.size, 0),
  }));
  const leading = totals.sort((a, b) => b.total - a.total)[0]!.counties;
  return { region, tested: region.counties.map(({ fips }) => leading.get(fips)?.size ?? 0) };
}

function entry<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const found = map.get(key) ?? make();
  map.set(key, found);
  return found;
}
