import type { Region } from '@/lib/geography/types';
import type { Assay, Fips, Season } from '@/lib/vocabulary/terms';
import { alterRow, type FaultContext } from './faults';
import { PARAMETERS } from './parameters';
import type { Population } from './population';
import { createRandom, type Random } from './random';
import type { Cells, ScenarioRow } from './sheet';
import type { SpeciesPlan, TestPlan } from './species-plans';
import { callOf, sprayTray, type Tray } from './trays';

/**
 * The records of one season's sheet: each population × group × active that was screened, with the faults of real
 * sheets. Deterministic: reading again gives the same records.
 *
 * @param limit records after which the sheet ends, or null
 */
export function* renderRows({
  region,
  species,
  populations,
  season,
  seed,
  limit,
}: {
  region: Region;
  species: readonly SpeciesPlan[];
  populations: readonly Population[];
  season: Season;
  seed: number;
  limit: number | null;
}): Generator<ScenarioRow> {
  const random = createRandom(seed, 'rows', season);
  const sharedNames = namesHeldTwice(region);
  let left = limit ?? Number.POSITIVE_INFINITY;
  for (const population of populations) {
    const county = region.counties[population.county]!;
    const { state, name, fullName, fips } = county;
    const place = { state, fips, county: sharedNames.has(`${state}|${name}`) ? fullName : name };
    const context: FaultContext = {
      region,
      countyIndex: population.county,
      species: species[population.species]!,
    };
    for (const row of screen(population, place, context.species, season, random)) {
      for (const written of population.viable ? alterRow(row, context, random) : [notViable(row)]) {
        if (left-- <= 0) return;
        yield written;
      }
    }
  }
}

/** A county as the sheet writes it, and its key. */
interface Place {
  state: string;
  county: string;
  fips: Fips;
}

function* screen(
  population: Population,
  place: Place,
  species: SpeciesPlan,
  season: Season,
  random: Random,
): Generator<ScenarioRow> {
  for (let t = 0; t < species.tests.length; t++) {
    const test = species.tests[t]!;
    if (test.screened < 1 && !random.chance(test.screened)) continue;
    const assay = chooseAssay(test, random);
    const actives: readonly (string | null)[] =
      assay === 'molecular' ? [null] : assay === 'soil-applied' ? [test.soilActive] : test.actives;
    for (let a = 0; a < actives.length; a++) {
      const resistant =
        assay === 'molecular' ? population.resistantTo[t]!.some(Boolean) : population.resistantTo[t]![a]!;
      for (const rate of chooseRates(assay, random)) {
        const tray = sprayTray({ resistant, rate, assay }, random);
        const active = actives[a] ?? null;
        const cells = cellsOf(population, place, {
          weed: species.name,
          herbicide: active ?? `Group ${test.group}`,
          rate: rate === 1 && random.chance(0.03) ? 'label' : `${rate}x`,
          tray,
          daysAfter: assay === 'molecular' ? '' : test.group === 4 ? '28' : '21',
          assay,
        });
        yield {
          cells,
          truth: {
            season,
            county: place.fips,
            species: species.eppo,
            group: test.group,
            active,
            assay,
            resistant,
            outcome: 'accepted',
            result: callOf(tray, rate),
          },
          fault: null,
        };
      }
    }
  }
}

/** What one spraying adds to what is known of the population. */
interface Spraying {
  weed: string;
  herbicide: string;
  rate: string;
  tray: Tray;
  daysAfter: string;
  assay: Assay;
}

/** One literal with all cells: a spread of as many would be what takes longest in five million records. */
function cellsOf(population: Population, place: Place, spraying: Spraying): Cells {
  const { point } = population;
  return {
    'Sample #': population.sample,
    'Date collected': population.collected,
    "Date rec'd": population.received,
    State: place.state,
    County: place.county,
    Lat: point ? String(point.lat) : '',
    Long: point ? String(point.lon) : '',
    'Location notes': population.notes,
    Weed: spraying.weed,
    'Herbicide / Group': spraying.herbicide,
    Rate: spraying.rate,
    'Plants treated': String(spraying.tray.treated),
    'Plants alive': String(spraying.tray.alive),
    DAT: spraying.daysAfter,
    'S check': 'Y',
    Crop: population.crop,
    'Grower/Operation': population.operation,
    'OK to share': population.consent,
    Remarks: 'simulated',
    Design: population.design,
    Assay: spraying.assay,
    Funder: FUNDERS[population.crop] ?? '',
    'Sent by': population.sender,
  };
}

/** The four invented boards; soybean and sunflower share one. */
const FUNDERS: Readonly<Record<string, string>> = {
  wheat: 'wheat board (simulated)',
  sorghum: 'sorghum board (simulated)',
  corn: 'corn board (simulated)',
  soybean: 'oilseed board (simulated)',
  sunflower: 'oilseed board (simulated)',
};

function chooseAssay(test: TestPlan, random: Random): Assay {
  if (test.molecular && random.chance(PARAMETERS.molecular)) return 'molecular';
  if (test.soilActive !== null && random.chance(PARAMETERS.soilApplied)) return 'soil-applied';
  return 'whole plant';
}

function chooseRates(assay: Assay, random: Random): readonly number[] {
  if (assay !== 'whole plant') return [1];
  const draw = random.uniform();
  if (draw < PARAMETERS.halfRateOnly) return [0.5];
  if (draw < PARAMETERS.halfRateOnly + PARAMETERS.doubleRateOnly) return [2];
  return draw > 1 - PARAMETERS.doubleRateToo ? [1, 2] : [1];
}

function notViable(row: ScenarioRow): ScenarioRow {
  const { 'Plants treated': treated, 'Plants alive': alive, Remarks: remarks } = row.cells;
  return {
    cells: {
      ...row.cells,
      'Plants treated': '0',
      'Plants alive': '0',
      Remarks: 'simulated; seed did not germinate',
    },
    truth: { ...row.truth, outcome: 'refused', result: null },
    fault: {
      kind: 'not viable',
      was: { 'Plants treated': treated, 'Plants alive': alive, Remarks: remarks },
    },
  };
}

/** County names that two counties of one state share in the outlines, as `MO|St. Louis`. */
function namesHeldTwice({ counties }: Region): Set<string> {
  const seen = new Set<string>();
  const twice = new Set<string>();
  for (const { state, name } of counties) {
    const key = `${state}|${name}`;
    if (seen.has(key)) twice.add(key);
    seen.add(key);
  }
  return twice;
}
