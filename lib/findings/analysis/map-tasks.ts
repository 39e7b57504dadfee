import { isTested, senderOf } from '@/lib/cube/facts';
import type { Fact } from '@/lib/cube/types';
import type { PlaceKey, Region } from '@/lib/geography/types';
import { deriveSeed } from '@/lib/stats/random';
import type { Design, Period } from '@/lib/vocabulary/terms';
import { enteringPlaces } from '../entering-places';
import { MINIMUM_PLACES } from '../find-clustering';
import { type Names, regionNames } from '../names';
import { type PlaceOf, placeNeighbours, placePoints } from '../place-neighbours';
import type { MapKey, MapTask } from './types';

export interface MapTasksInput {
  /** Whole-plant results are looked at, with and without consent. */
  facts: Iterable<Fact>;
  region: Region;
  /** Runs of seasons; each is a map of its own. */
  periods: readonly Period[];
  /** Seed of the whole analysis: each map has its own, by its key. */
  seed: number;
  speciesName: Names['species'];
}

/**
 * The maps of a programme: each species × group × period, of all designs together and of each design that has results,
 * by county where enough of them enter, else by district. Private: counts are exact.
 *
 * @returns ascending by species, group, period, design (all together first)
 */
export function mapTasks({ facts, region, periods, seed, speciesName }: MapTasksInput): MapTask[] {
  const tested = [...facts].filter((fact) => fact.assay === 'whole plant' && isTested(fact));
  const grains = {
    area: grainOf(region, 'area', ({ fips }) => fips),
    district: grainOf(region, 'district', ({ district }) => district),
  };
  const names = regionNames(region, speciesName);
  const maps = new Map<string, { key: Omit<MapKey, 'grain'>; facts: Fact[] }>();
  for (const fact of tested) {
    for (const period of periods) {
      if (fact.season < period.first || fact.season > period.last) continue;
      for (const design of [null, fact.design]) {
        const key = { species: fact.species, group: fact.group, period, design };
        const label = labelOf(key);
        const map = maps.get(label);
        if (map) map.facts.push(fact);
        else maps.set(label, { key, facts: [fact] });
      }
    }
  }
  return [...maps.values()]
    .sort((a, b) => byKey(a.key, b.key))
    .map(({ key, facts: own }) => {
      const task = (grain: Grain): MapTask => ({
        kind: 'map',
        ...key,
        ...counted(own, key.period, grain),
        grain: grain.kind,
        neighbours: grain.neighbours,
        points: grain.points,
        speciesName: names.species(key.species),
        placeNames: grain.namesBy(names),
        seed: deriveSeed(seed, `map|${labelOf(key)}`),
      });
      const byCounty = task(grains.area);
      const { places } = enteringPlaces(byCounty.observations, byCounty.neighbours);
      const enough = places.length >= MINIMUM_PLACES.area || region.districts.length === 0;
      return enough ? byCounty : task(grains.district);
    });
}

/** The same for the same map, whatever else is analysed. */
export function labelOf({ species, group, period, design }: Omit<MapKey, 'grain'>): string {
  return `${species}|${group}|${period.first}–${period.last}|${design ?? 'all'}`;
}

interface Grain {
  kind: MapKey['grain'];
  placeOf: ReadonlyMap<string, PlaceKey>;
  neighbours: MapTask['neighbours'];
  points: MapTask['points'];
  namesBy: (names: Names) => Map<PlaceKey, string>;
}

function grainOf(region: Region, kind: Grain['kind'], placeOf: PlaceOf): Grain {
  const places = region.counties.flatMap((county) => {
    const place = placeOf(county);
    return place === null ? [] : [[county.fips, place] as const];
  });
  let named: Map<PlaceKey, string> | null = null;
  return {
    kind,
    placeOf: new Map(places),
    neighbours: placeNeighbours(region, placeOf),
    points: placePoints(region, placeOf),
    namesBy: (names) => {
      named ??= new Map(places.map(([, place]) => [place, names.place(kind, place)]));
      return named;
    },
  };
}

function counted(
  facts: readonly Fact[],
  period: Period,
  { kind, placeOf }: Grain,
): Pick<MapTask, 'observations' | 'senders' | 'bySeason'> {
  const seasons = period.last - period.first + 1;
  const places = new Map<
    PlaceKey,
    { tested: number[]; resistant: number[]; sent: Map<string, [number, number]> }
  >();
  for (const fact of facts) {
    const place = placeOf.get(fact.county);
    if (place === undefined) continue;
    let own = places.get(place);
    if (!own) {
      const none = () => new Array<number>(seasons).fill(0);
      own = { tested: none(), resistant: none(), sent: new Map() };
      places.set(place, own);
    }
    const resistant = Number(fact.result === 'resistant');
    own.tested[fact.season - period.first]! += 1;
    own.resistant[fact.season - period.first]! += resistant;
    const sender = senderOf(fact);
    const [sent, found] = own.sent.get(sender) ?? [0, 0];
    own.sent.set(sender, [sent + 1, found + resistant]);
  }
  const ascending = [...places].sort(([a], [b]) => (a < b ? -1 : 1));
  const sum = (counts: readonly number[]) => counts.reduce((total, count) => total + count, 0);
  const { species, group } = facts[0]!;
  return {
    observations: ascending.map(([place, { tested, resistant }]) => ({
      ...{ placeKind: kind === 'area' ? 'county' : kind, place, period, species, group },
      tested: sum(tested),
      resistant: sum(resistant),
    })),
    senders: new Map(
      ascending.map(([place, { sent }]) => [
        place,
        [...sent].map(([operation, [tested, resistant]]) => ({ operation, tested, resistant })),
      ]),
    ),
    bySeason: {
      seasons,
      tested: ascending.flatMap(([, own]) => own.tested),
      resistant: ascending.flatMap(([, own]) => own.resistant),
    },
  };
}

function byKey(a: Omit<MapKey, 'grain'>, b: Omit<MapKey, 'grain'>): number {
  const text = (x: string, y: string) => (x < y ? -1 : x > y ? 1 : 0);
  return (
    text(a.species, b.species) ||
    a.group - b.group ||
    a.period.first - b.period.first ||
    a.period.last - b.period.last ||
    text(designWord(a.design), designWord(b.design))
  );
}

function designWord(design: Design | null): string {
  return design ?? '';
}
