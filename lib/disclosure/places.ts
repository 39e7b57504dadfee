import type { CellKey } from '@/lib/cube/types';
import { areaKey, joinedAreas } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Fips } from '@/lib/vocabulary/terms';

/** How places lie in each other. A `Region` of `lib/geography` is one. */
export interface PlaceTree {
  counties: readonly { fips: Fips; state: string; district: string | null }[];
  districts: readonly { code: string; state: string; counties: readonly Fips[] }[];
}

export type Place = Pick<CellKey, 'placeKind' | 'place'>;

/**
 * Answers which place contains a place. A state's districts count only where every county of the state has one:
 * otherwise the counties outside could be had by subtraction, and counties lie directly in the state.
 */
export class Places {
  private readonly parents = new Map<string, Place>();
  private readonly whole = new Set<string>();
  /** Districts and counties. */
  readonly all: Place[];

  constructor(tree: PlaceTree, areas: readonly AreaTable[] = []) {
    const states = [...new Set(tree.counties.map((county) => county.state))].sort();
    for (const state of states) {
      const counties = tree.counties.filter((county) => county.state === state);
      if (counties.every((county) => county.district !== null)) this.whole.add(state);
      this.parents.set(`state ${state}`, { placeKind: 'region', place: 'region' });
    }
    const districts = tree.districts.filter((district) => this.whole.has(district.state));
    for (const { code, state } of districts)
      this.parents.set(`district ${code}`, { placeKind: 'state', place: state });
    for (const { fips, state, district } of tree.counties) {
      const parent: Place =
        this.whole.has(state) && district !== null
          ? { placeKind: 'district', place: district }
          : { placeKind: 'state', place: state };
      this.parents.set(`county ${fips}`, parent);
    }
    for (const table of areas) {
      for (const counties of joinedAreas(table))
        this.parents.set(`area ${areaKey(counties)}`, this.parents.get(`county ${counties[0]}`)!);
    }
    this.all = [
      ...districts.map(({ code }): Place => ({ placeKind: 'district', place: code })),
      ...tree.counties.map(({ fips }): Place => ({ placeKind: 'county', place: fips })),
    ];
  }

  /** The place that contains this one; null for the region; undefined where the place is not known. */
  parentOf({ placeKind, place }: Place): Place | null | undefined {
    return placeKind === 'region' ? null : this.parents.get(`${placeKind} ${place}`);
  }

  /** True where the districts of this state add up to it. */
  hasDistricts(state: string): boolean {
    return this.whole.has(state);
  }
}
