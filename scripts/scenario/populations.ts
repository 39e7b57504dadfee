import type { Region } from '@/lib/geography/types';
import type { Design, Season } from '@/lib/vocabulary/terms';
import { collectedAndReceived } from './dates';
import type { Detections } from './detections';
import { kmBetween } from './distance';
import type { CountyOperations } from './operations';
import { PARAMETERS } from './parameters';
import { latentShare, type Planting } from './planting';
import { type Point, pointInCounty } from './point-in-county';
import type { Population } from './population';
import { createRandom, type Random } from './random';
import { populationsIn, type SizePlan, seasonsOf } from './sizes';
import type { SpeciesPlan } from './species-plans';
import { weightedDraw } from './weighted';

/** What does not change from season to season. */
export interface Setting {
  region: Region;
  size: SizePlan;
  species: readonly SpeciesPlan[];
  planting: Planting;
  operations: readonly CountyOperations[];
  seed: number;
}

/**
 * Draws all populations that the laboratory receives in a season, in the order in which they arrive. Of the season
 * under way only the half whose results are in is returned; its sample numbers have gaps.
 */
export function drawPopulations(setting: Setting, season: Season, detections: Detections): Population[] {
  const { region, size, species, seed } = setting;
  const random = createRandom(seed, 'populations', season);
  const even = weightedDraw(region.counties.map((_, i) => (setting.planting.effort.weights[i]! > 0 ? 1 : 0)));
  const fields = new FieldsApart();
  const populations: Population[] = [];
  const forced = placedByHand(setting, season);

  speciesQuotas(species, populationsIn(size, season)).forEach((quota, s) => {
    const byEffort = weightedDraw(detections.effortFor(s, season));
    const placed = forced.filter((one) => one.species === s);
    for (let k = 0; k < quota; k++) {
      const design = random.chance(PARAMETERS.randomDesign) ? 'random' : 'submitted';
      const county = placed[k]?.county ?? (design === 'random' ? even : byEffort)(random);
      const rank = placed[k]?.operation;
      populations.push(
        drawOne(setting, { season, species: s, county, design, rank, fields, detections, random }),
      );
    }
  });
  return number(populations, size, season, random);
}

function drawOne(
  { region, size, species, planting, operations }: Setting,
  {
    season,
    species: s,
    county,
    design,
    rank,
    fields,
    detections,
    random,
  }: {
    season: Season;
    species: number;
    county: number;
    design: Design;
    rank: number | undefined;
    fields: FieldsApart;
    detections: Detections;
    random: Random;
  },
): Population {
  const plan = species[s]!;
  const { ids, senders, draw } = operations[county]!;
  const farm = rank === undefined ? draw(random) : rank % ids.length;
  const heavy = random.chance(PARAMETERS.heavyHistory);
  const resistantTo = plan.tests.map((test) => {
    const share = latentShare(planting, test, { county, season, firstSeason: size.firstSeason, heavy });
    return byActive(
      random.chance(share),
      test.actives.length,
      s === 0 && planting.disagreement.has(county),
      random,
    );
  });
  const followUp =
    design === 'submitted' &&
    detections.anyBefore(county, season) &&
    random.chance(PARAMETERS.followUpAfterDetection);
  const unknown = random.chance(PARAMETERS.operationUnknown);
  const consent = random.uniform();
  return {
    sample: '',
    county,
    species: s,
    operation: unknown ? '' : ids[farm]!,
    sender: design === 'random' ? 'survey crew' : senders[farm]!,
    design: followUp ? 'follow-up' : design,
    crop: random.pick(plan.crops),
    point: random.chance(PARAMETERS.coordinatesBlank)
      ? null
      : fields.place(`${ids[farm]}|${s}`, () => pointInCounty(region.counties[county]!, random)),
    notes: random.chance(0.12) ? random.pick(NOTES) : '',
    ...collectedAndReceived(season, plan.collected, random),
    consent:
      consent < PARAMETERS.consentNo
        ? 'N'
        : consent < PARAMETERS.consentNo + PARAMETERS.consentBlank
          ? ''
          : 'Y',
    viable: !random.chance(PARAMETERS.notViable),
    resistantTo,
  };
}

const NOTES = ['field edge', 'low spot', 'patch by the entrance', 'along the combine track', 'whole field'];

/**
 * Which of the actives a population resistant to their group is resistant to: nearly always all, but where actives
 * disagree mostly the last alone. At least one.
 */
function byActive(resistant: boolean, actives: number, disagree: boolean, random: Random): boolean[] {
  const all = new Array<boolean>(actives).fill(resistant);
  if (!resistant || actives === 1) return all;
  const draw = random.uniform();
  const alone = disagree ? 0.8 : 0.1;
  if (draw >= alone) return all;
  const one = draw < alone * (disagree ? 0.9 : 0.5) ? actives - 1 : 0;
  return all.map((_, i) => i === one);
}

/** Populations that are placed and not drawn: those of one-population counties and of the county that turns. */
function placedByHand(
  { size, species, planting, seed }: Setting,
  season: Season,
): { species: number; county: number; operation: number }[] {
  const { cleanThenFound } = planting;
  const turning = species.findIndex(({ tests }) => tests.some(({ model }) => model.kind === 'introductions'));
  const here = [cleanThenFound.clean, cleanThenFound.found].includes(season) ? cleanThenFound.populations : 0;
  const random = createRandom(seed, 'one population');
  const closed = seasonsOf(size).filter((s) => s <= size.lastClosed);
  const ones = planting.effort.onePopulation.map((county) => ({
    season: random.pick(closed),
    species: random.below(Math.min(5, species.length)),
    county,
    operation: 0,
  }));
  return [
    ...ones.filter((one) => one.season === season),
    ...Array.from({ length: here }, (_, operation) => ({
      species: turning,
      county: cleanThenFound.county,
      operation,
    })),
  ];
}

/** Whole populations by species that add up to the count (largest remainders, earlier species first in a tie). */
function speciesQuotas(species: readonly SpeciesPlan[], count: number): number[] {
  const total = species.reduce((sum, { share }) => sum + share, 0);
  const exact = species.map(({ share }) => (count * share) / total);
  const quotas = exact.map(Math.floor);
  const left = count - quotas.reduce((sum, quota) => sum + quota, 0);
  const byRemainder = exact
    .map((x, i) => ({ i, rest: x - Math.floor(x) }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i);
  for (const { i } of byRemainder.slice(0, left)) quotas[i] = quotas[i]! + 1;
  return quotas;
}

function number(populations: Population[], size: SizePlan, season: Season, random: Random): Population[] {
  const inOrder = random
    .shuffle(populations)
    .sort((a, b) => (a.received < b.received ? -1 : a.received > b.received ? 1 : 0));
  const digits = Math.max(4, String(inOrder.length).length);
  inOrder.forEach((population, i) => {
    population.sample = `L${String(season).slice(2)}-${String(i + 1).padStart(digits, '0')}`;
  });
  if (season !== size.openSeason) return inOrder;
  const reported = new Set(random.shuffle(inOrder).slice(0, Math.round(inOrder.length / 2)));
  return inOrder.filter((population) => reported.has(population));
}

/** Keeps two fields of one operation and species 300 m apart or more: nearer ones would be taken for one field. */
class FieldsApart {
  private readonly points = new Map<string, Point[]>();

  place(key: string, draw: () => Point | null): Point | null {
    const others = this.points.get(key) ?? [];
    for (let attempt = 0; attempt < 5; attempt++) {
      const point = draw();
      if (!point) return null;
      if (others.some((other) => kmBetween(other, point) < 0.3)) continue;
      this.points.set(key, [...others, point]);
      return point;
    }
    return null;
  }
}
