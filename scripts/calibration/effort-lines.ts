import { among } from '@/lib/geography/neighbours/among';
import { deriveSeed, Random } from '@/lib/stats/random';
import { greatCircle } from '@/lib/stats/scan/great-circle';
import { buildWeights, type Weights } from '@/lib/stats/weights';
import { demoEffort } from './demo-effort';

/** How much was tested where, among counties with a tested neighbour. */
export interface EffortLine {
  name: string;
  about: string;
  tested: Int32Array;
  lon: number[];
  lat: number[];
  row: Weights;
  binary: Weights;
  /** Tested counties without a tested neighbour: left out. */
  islands: number;
  /** In km. */
  distance: (a: number, b: number) => number;
}

/**
 * Ways to have tested a region: as the demonstration does, one population in each county, 60 % of counties untested,
 * scattered counties (many without a tested neighbour), nearly all of it near two places.
 */
export function effortLines(seed: number): EffortLine[] {
  const { region, tested } = demoEffort();
  const random = new Random(deriveSeed(seed, 'effort'));
  const line = (name: string, about: string, counts: (place: number) => number): EffortLine => {
    const all = region.counties.map((_, place) => counts(place));
    const chosen = all.flatMap((count, place) => (count > 0 ? [place] : []));
    const { islands } = among(region, chosen);
    const isIsland = new Set(islands.map((i) => chosen[i]!));
    const kept = chosen.filter((place) => !isIsland.has(place));
    const lists = among(region, kept).neighbours.map((list) => [...list]);
    const lon = kept.map((place) => region.counties[place]!.lon);
    const lat = kept.map((place) => region.counties[place]!.lat);
    return {
      ...{ name, about, lon, lat, islands: islands.length },
      tested: Int32Array.from(kept, (place) => all[place]!),
      row: buildWeights(lists, 'row'),
      binary: buildWeights(lists, 'binary'),
      distance: (a, b) => greatCircle(lon[a]!, lat[a]!, lon[b]!, lat[b]!),
    };
  };
  const exponential = (mean: number) => 1 + Math.floor(-Math.log(1 - random.uniform()) * mean);
  return [
    line(
      'demonstration',
      'what was tested of its leading pair in its newest window',
      (place) => tested[place]!,
    ),
    line('one each', 'one population in every county', () => 1),
    line('40 % tested', '1 to some 20 in 40 % of counties by chance', () =>
      random.uniform() < 0.4 ? exponential(6) : 0,
    ),
    line('scattered', '1 to some 10 in 15 % of counties by chance', () =>
      random.uniform() < 0.15 ? exponential(4) : 0,
    ),
    line('near two laboratories', 'some 25 in counties near two places, 1 to 4 elsewhere', (place) => {
      const { lon, lat } = region.counties[place]!;
      const away = Math.min(greatCircle(lon, lat, -96.7, 40.8), greatCircle(lon, lat, -97, 44.3));
      return exponential(away < 130 ? 25 : 1.5);
    }),
  ];
}
