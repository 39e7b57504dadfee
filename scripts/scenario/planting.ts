import type { Region } from '@/lib/geography/types';
import { kmBetween } from './distance';
import { type Effort, layOutEffort } from './effort';
import { type Front, raiseFront } from './front';
import { type Introductions, introduce } from './introductions';
import { createRandom } from './random';
import { shareBehindArrival, shareOnTrend } from './share-models';
import { type SizePlan, seasonsOf } from './sizes';
import type { SpeciesPlan, TestPlan } from './species-plans';

/** Where and when everything is planted: county indices into `region.counties`. */
export interface Planting {
  effort: Effort;
  /** The county where one operation sends a quarter of the seed. */
  oneSender: number;
  front: Front;
  introductions: Introductions;
  /** Clean in one season, full of survivors in the next, against the group of the introductions. */
  cleanThenFound: { county: number; clean: number; found: number; populations: number; share: number };
  cluster: Set<number>;
  /** Counties where the two actives of group 4 disagree in the first species that is tested with both. */
  disagreement: Set<number>;
}

/** Chooses all planted places and times from the seed. Needs a region of some 30 counties or more. */
export function plant(
  region: Region,
  size: SizePlan,
  species: readonly SpeciesPlan[],
  seed: number,
): Planting {
  const seasons = seasonsOf(size);
  const effort = layOutEffort(region, createRandom(seed, 'effort'));
  const random = createRandom(seed, 'places');
  const { campuses, ordinary } = effort;
  const [front, introductions, cluster] = [
    modelOf(species, 'front'),
    modelOf(species, 'introductions'),
    modelOf(species, 'standing cluster'),
  ];
  const busy = [...ordinary]
    .filter((i) => !campuses.includes(i))
    .sort((a, b) => effort.weights[b]! - effort.weights[a]!);
  const well = busy.slice(0, Math.ceil(busy.length / 2));
  const oneSender = random.pick(busy.slice(0, Math.ceil(busy.length / 5)));
  const clean = random.pick(busy.filter((i) => i !== oneSender).slice(0, Math.ceil(busy.length / 3)));
  const cleanThenFound = {
    county: clean,
    clean: size.lastClosed - 1,
    found: size.lastClosed,
    populations: 7,
    share: 0.95,
  };
  return {
    effort,
    oneSender,
    cleanThenFound,
    front: raiseFront({
      region,
      model: front,
      firstSeason: size.firstSeason,
      candidates: well,
      avoid: campuses,
      random: createRandom(seed, 'front'),
    }),
    introductions: introduce({
      region,
      model: introductions,
      seasons,
      candidates: well,
      keptClean: { county: clean, until: cleanThenFound.found },
      random: createRandom(seed, 'introductions'),
    }),
    cluster: new Set(nearest(region, campuses[1], Math.min(cluster.counties, region.counties.length / 4))),
    disagreement: new Set(nearest(region, random.pick(busy), Math.min(40, region.counties.length / 4))),
  };
}

/**
 * The latent probability (0–1) that a population of this species, county, season and history is resistant to the
 * group: what everything downstream is compared with.
 */
export function latentShare(
  planting: Planting,
  { model }: TestPlan,
  {
    county,
    season,
    firstSeason,
    heavy,
  }: { county: number; season: number; firstSeason: number; heavy: boolean },
): number {
  switch (model.kind) {
    case 'constant':
      return model.share;
    case 'by history':
      return heavy ? model.heavy : model.light;
    case 'trend':
      return shareOnTrend(model, season - firstSeason);
    case 'standing cluster':
      return planting.cluster.has(county) ? model.inside : model.outside;
    case 'front':
      return shareBehindArrival(season - planting.front.arrivals[county]!, model.highest, model.riseYears);
    case 'introductions': {
      const since = season - planting.introductions.arrivals[county]!;
      if (!(since >= 0)) return 0;
      if (county === planting.cleanThenFound.county) return planting.cleanThenFound.share;
      return shareBehindArrival(since, model.highest, model.riseYears);
    }
  }
}

type Model = TestPlan['model'];

function modelOf<K extends Model['kind']>(
  species: readonly SpeciesPlan[],
  kind: K,
): Extract<Model, { kind: K }> {
  const found = species.flatMap(({ tests }) => tests).find(({ model }) => model.kind === kind)?.model;
  if (!found) throw new RangeError(`No species is planted with a ${kind}.`);
  return found as Extract<Model, { kind: K }>;
}

function nearest(region: Region, county: number, count: number): number[] {
  const from = region.counties[county]!;
  return [...region.counties.keys()]
    .sort((a, b) => kmBetween(from, region.counties[a]!) - kmBetween(from, region.counties[b]!))
    .slice(0, Math.floor(count));
}
