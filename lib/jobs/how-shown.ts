import { aggregate } from '@/lib/cube/aggregate';
import type { Fact } from '@/lib/cube/types';
import type { ReleasedCube } from '@/lib/disclosure/types';
import { areaOfCounty, findAreas } from '@/lib/geography/areas';
import type { Region } from '@/lib/geography/types';
import type { Fips, Pair, Period } from '@/lib/vocabulary/terms';

/** The finest place in which the populations of a county are shown in a window; `none`: in no place below states. */
export const SHOWN_BY = ['county', 'area', 'district', 'none'] as const;
export type ShownBy = (typeof SHOWN_BY)[number];

/** How the screened populations of a pair are shown, window by window. Private: it has exact counts of what is not. */
export interface ShownPair extends Pair {
  windows: (Period & {
    /** County, screened populations, and the finest place that shows them. Counties without any are left out. */
    counties: (readonly [county: Fips, tested: number, by: ShownBy])[];
  })[];
}

/**
 * For each pair × window, the finest public place in which the populations of each county are counted.
 *
 * @param facts what entered the release
 * @param cube what the gate made of it
 */
export function howShown(facts: readonly Fact[], cube: ReleasedCube, region: Region): ShownPair[] {
  const published = new Set(
    cube.cells
      .filter((cell) => cell.status === 'published' && cell.assay === 'whole plant' && cell.design === null)
      .map(({ species, group, period, placeKind, place }) =>
        [species, group, period.first, period.last, placeKind, place].join('|'),
      ),
  );
  const districtOf = new Map(region.counties.map(({ fips, district }) => [fips, district]));
  const areasIn = new Map<string, Map<Fips, string>>();
  for (const { species, first } of cube.areas)
    areasIn.set(`${species}|${first}`, areaOfCounty(findAreas(cube.areas, species, first)));
  const wholePlant = facts.filter(({ assay }) => assay === 'whole plant');
  const pairs = new Map<string, ShownPair>();
  for (const window of cube.windows) {
    const cells = aggregate(wholePlant, {
      placeKind: 'county',
      placeOf: (county) => county,
      periodOf: (season) => (window.first <= season && season <= window.last ? window : null),
      byDesign: false,
    });
    for (const { species, group, place, tested } of cells) {
      if (tested === 0) continue;
      const isShown = (kind: string, at: string | null | undefined) =>
        typeof at === 'string' &&
        published.has([species, group, window.first, window.last, kind, at].join('|'));
      const by: ShownBy = isShown('county', place)
        ? 'county'
        : isShown('area', areasIn.get(`${species}|${window.first}`)?.get(place))
          ? 'area'
          : isShown('district', districtOf.get(place))
            ? 'district'
            : 'none';
      const key = `${species}|${String(group).padStart(3)}`;
      const pair = pairs.get(key) ?? {
        species,
        group,
        windows: cube.windows.map((one) => ({ ...one, counties: [] })),
      };
      pairs.set(key, pair);
      const own = pair.windows.find(({ first }) => first === window.first)!;
      own.counties.push([place, tested, by]);
    }
  }
  return [...pairs].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, pair]) => pair);
}
