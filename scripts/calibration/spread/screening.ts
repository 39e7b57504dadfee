import type { Region } from '@/lib/geography/types';
import type { Random } from '@/lib/stats/random';
import { greatCircle } from '@/lib/stats/scan/great-circle';
import type { SeasonCounts, SpreadPoints } from '@/lib/stats/spread/types';
import { buildWeights, type Weights } from '@/lib/stats/weights';
import { layOutEffort } from '../../scenario/effort';
import { createRandom } from '../../scenario/random';
import { scenarioRegion } from '../../scenario/sizes';

/**
 * How a region is tested: `even`, as much everywhere; `uneven`, as the demonstration lays it out; `follows finds`, the
 * same and doubled next door in the season after a first find.
 */
export type Testing = 'even' | 'uneven' | 'follows finds';

/** The chance that a population of a place is resistant in a season. */
export type ShareAt = (place: number, season: number) => number;

export interface Ground {
  region: Region;
  weights: Weights;
  points: SpreadPoints;
  /** In km. */
  distance(a: number, b: number): number;
  /** Simulates twelve seasons of testing and finding. */
  screen(testing: Testing, shareAt: ShareAt, random: Random): SeasonCounts;
}

export const SEASONS = Array.from({ length: 12 }, (_, t) => 2013 + t);

/** The counties of the demonstration, tested as much in all as its leading pair: some 2,000 populations. */
export function ground(seed: number): Ground {
  const region = scenarioRegion('default');
  const { counties } = region;
  const uneven = layOutEffort(region, createRandom(seed, 'effort')).weights;
  const total = uneven.reduce((sum, weight) => sum + weight, 0);
  const weights = buildWeights(region.neighbours, 'binary');
  const places = counties.length;
  return {
    region,
    weights,
    points: {
      x: counties.map(({ lon }) => lon),
      y: counties.map(({ lat }) => lat),
      metric: 'great circle',
    },
    distance: (a, b) => greatCircle(counties[a]!.lon, counties[a]!.lat, counties[b]!.lon, counties[b]!.lat),
    screen(testing, shareAt, random) {
      const tested = new Int32Array(SEASONS.length * places);
      const resistant = new Int32Array(SEASONS.length * places);
      const firstFound = new Int32Array(places).fill(-1);
      SEASONS.forEach((season, t) => {
        // From 80 populations in the first season to 260 in the last, as the demonstration's leading pair.
        const sent = 80 + (180 * t) / (SEASONS.length - 1);
        for (let place = 0; place < places; place += 1) {
          const mean = testing === 'even' ? 1 / places : uneven[place]! / total;
          const isNextDoor = testing === 'follows finds' && foundNextDoor(weights, firstFound, place, t - 1);
          const cell = t * places + place;
          tested[cell] = poisson(sent * mean * (isNextDoor ? 2 : 1), random);
          const share = shareAt(place, season);
          for (let k = 0; k < tested[cell]!; k += 1) resistant[cell]! += Number(random.uniform() < share);
        }
        for (let place = 0; place < places; place += 1)
          if (firstFound[place] === -1 && resistant[t * places + place]! > 0) firstFound[place] = t;
      });
      return { seasons: SEASONS, places, tested, resistant };
    },
  };
}

/** The same counts by the region's districts: which counties each has, and which districts touch. */
export function byDistrict({ region }: Pick<Ground, 'region'>, counts: SeasonCounts) {
  const names = [...new Set(region.counties.map(({ district }) => district!))].sort();
  const districtOf = region.counties.map(({ district }) => names.indexOf(district!));
  const size = counts.seasons.length * names.length;
  const summed: SeasonCounts = {
    seasons: counts.seasons,
    places: names.length,
    tested: new Int32Array(size),
    resistant: new Int32Array(size),
  };
  counts.tested.forEach((tested, cell) => {
    const to = Math.floor(cell / counts.places) * names.length + districtOf[cell % counts.places]!;
    summed.tested[to]! += tested;
    summed.resistant[to]! += counts.resistant[cell]!;
  });
  const members = names.map((_, d) => districtOf.flatMap((own, county) => (own === d ? [county] : [])));
  const lists = members.map((own, d) => [
    ...new Set(
      own
        .flatMap((county) => region.neighbours[county]!.map((other) => districtOf[other]!))
        .filter((other) => other !== d),
    ),
  ]);
  return { counts: summed, members, weights: buildWeights(lists, 'binary') };
}

function foundNextDoor(
  { offsets, neighbours }: Weights,
  firstFound: Int32Array,
  place: number,
  t: number,
): boolean {
  for (let at = offsets[place]!; at < offsets[place + 1]!; at += 1)
    if (t >= 0 && firstFound[neighbours[at]!] === t) return true;
  return false;
}

function poisson(mean: number, random: Random): number {
  let count = 0;
  for (let left = Math.exp(-mean), product = random.uniform(); product > left; product *= random.uniform())
    count += 1;
  return count;
}
