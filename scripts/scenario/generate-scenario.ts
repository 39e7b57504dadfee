import type { Region } from '@/lib/geography/types';
import { createDetections } from './detections';
import { nationalSpecies } from './national-species';
import { peopleCounties } from './operations';
import { plant } from './planting';
import { drawPopulations, type Setting } from './populations';
import { createRandom } from './random';
import { renderRows } from './rows';
import type { ScenarioSheet } from './sheet';
import { populationsIn, SIZE_PLANS, type Size, seasonsOf } from './sizes';
import { plantedSpecies } from './species-plans';
import { type Truth, truthOf } from './truth';

export interface Scenario {
  /** One sheet a season, ascending. May be read again and again; each reading gives the same records. */
  sheets: Iterable<ScenarioSheet>;
  truth: Truth;
}

/**
 * Invents a screening programme's seasons: the laboratory's sheets and what was planted in them. Pure: the same
 * size, seed and region give the same records, and nothing is read or written.
 *
 * One season's populations are held at a time and its records are made while they are read, so that five million
 * need no more room than one season's bags of seed.
 *
 * @param seed any whole number
 * @param region 30 counties or more; `scenarioRegion(size)` gives the one that belongs to the size
 * @throws RangeError for a seed that is no whole number or a region too small to plant anything in
 */
export function generateScenario({
  size,
  seed,
  region,
}: {
  size: Size;
  seed: number;
  region: Region;
}): Scenario {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`The seed must be a whole number, not ${seed}.`);
  if (region.counties.length < 30) {
    throw new RangeError(
      `The region has ${region.counties.length} counties; a scenario needs 30 or more to plant its patterns in.`,
    );
  }
  const plan = SIZE_PLANS[size];
  const species = plan.pairs === 'national' ? nationalSpecies(seed) : plantedSpecies();
  const planting = plant(region, plan, species, seed);
  const seasons = seasonsOf(plan);
  const sent = seasons.reduce((sum, season) => sum + populationsIn(plan, season), 0);
  const { weights } = planting.effort;
  const effortInAll = weights.reduce((sum, weight) => sum + weight, 0);
  const operations = peopleCounties({
    region,
    effort: planting.effort,
    expected: weights.map((weight) => (weight * sent) / effortInAll),
    oneSender: planting.oneSender,
    random: createRandom(seed, 'operations'),
  });
  const setting: Setting = { region, size: plan, species, planting, operations, seed };
  const limit = plan.rowsInAll === null ? null : Math.ceil(plan.rowsInAll / seasons.length);

  return {
    truth: truthOf({ region, size, plan, seed, species, planting, operations }),
    sheets: {
      *[Symbol.iterator]() {
        const detections = createDetections(region, planting.effort, species);
        for (const season of seasons) {
          const populations = drawPopulations(setting, season, detections);
          detections.record(season, populations);
          const rows = {
            [Symbol.iterator]: () => renderRows({ region, species, populations, season, seed, limit }),
          };
          yield { season, rows };
        }
      },
    },
  };
}
