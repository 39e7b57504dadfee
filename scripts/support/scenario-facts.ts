import { factsOf, type ScreeningTest } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import type { Region } from '@/lib/geography/types';
import type { Design, Season } from '@/lib/vocabulary/terms';
import { generateScenario } from '../scenario/generate-scenario';
import { SIZE_PLANS, type Size, scenarioRegion, seasonsOf } from '../scenario/sizes';
import type { Truth } from '../scenario/truth';

export interface ScenarioFacts {
  region: Region;
  truth: Truth;
  facts: Fact[];
  closedSeasons: Season[];
}

/**
 * The facts of a simulated programme straight from its generator, as its accepted rows with a result make them: no sheet
 * is read and no database is needed. Populations whose rows are in question are left out, as until a person answers.
 */
export function scenarioFacts(size: Size, seed: number): ScenarioFacts {
  const region = scenarioRegion(size);
  const { sheets, truth } = generateScenario({ size, seed, region });
  const { lastClosed } = SIZE_PLANS[size];
  return {
    ...{ region, truth, facts: factsOf(testsOf(sheets)) },
    closedSeasons: seasonsOf(SIZE_PLANS[size]).filter((season) => season <= lastClosed),
  };
}

function* testsOf(sheets: ReturnType<typeof generateScenario>['sheets']): Generator<ScreeningTest> {
  for (const sheet of sheets) {
    for (const { cells, truth } of sheet.rows) {
      if (truth.outcome !== 'accepted' || truth.result === null) continue;
      yield {
        ...{ county: truth.county, season: truth.season, species: truth.species, group: truth.group },
        population: `${truth.season}-${cells['Sample #']}`,
        assay: truth.assay,
        design: cells.Design as Design,
        crop: cells.Crop || null,
        funder: cells.Funder || null,
        operation: cells['Grower/Operation'] || null,
        result: truth.result,
        actives: truth.active === null ? [] : [truth.active],
        publicShare: /^y/i.test(cells['OK to share']),
      };
    }
  }
}
