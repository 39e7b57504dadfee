import type { CellKey, Fact } from '@/lib/cube/types';
import type { PlaceTree } from '@/lib/disclosure/places';
import { areaKey, countiesOf } from '@/lib/geography/areas';
import type { AreaTable } from '@/lib/geography/types';
import type { Fips, PlaceKey } from '@/lib/vocabulary/terms';
import type { PastRelease } from './revision/types';

/** Counties that have another code than before and are otherwise the same: old code → new one. */
export type Recoding = ReadonlyMap<Fips, Fips>;

/**
 * Earlier releases as if they had been made with the codes of now, so that a county under its old and its new code is one
 * county to gate, batch rule and audit. What was published does not change: it is read so.
 *
 * @throws RangeError where two counties of a release would become one: that is no renaming
 */
export function recodedPast(past: readonly PastRelease[], recoding: Recoding): PastRelease[] {
  if (recoding.size === 0) return [...past];
  return past.map((release) => {
    const { cells, further, statuses, areas } = release.cube;
    return {
      ...release,
      cube: {
        ...release.cube,
        cells: cells.map((cell) => recodedPlace(cell, recoding)),
        further: further.map((cell) => recodedPlace(cell, recoding)),
        statuses: statuses.map((status) => recodedPlace(status, recoding)),
        areas: recodedAreas(areas, recoding),
      },
      places: recodedTree(release.places, recoding, release.number),
      facts: recodedFacts(release.facts, recoding),
    };
  });
}

/** Facts with the codes of now; those that have them already are the same objects. */
export function recodedFacts(facts: readonly Fact[], recoding: Recoding): Fact[] {
  return facts.map((fact) => {
    const county = recoding.get(fact.county);
    return county === undefined ? fact : { ...fact, county };
  });
}

export function recodedAreas(tables: readonly AreaTable[], recoding: Recoding): AreaTable[] {
  return tables.map((table) => ({
    ...table,
    areas: table.areas.map((counties) => counties.map((fips) => recoding.get(fips) ?? fips)),
  }));
}

/** A cell or status under the code that its county, or the counties of its area, have now. */
export function recodedPlace<T extends Pick<CellKey, 'placeKind' | 'place'>>(
  entry: T,
  recoding: Recoding,
): T {
  if (entry.placeKind !== 'county' && entry.placeKind !== 'area') return entry;
  const place: PlaceKey = areaKey(countiesOf(entry.place).map((fips) => recoding.get(fips) ?? fips));
  return place === entry.place ? entry : { ...entry, place };
}

function recodedTree({ counties, districts }: PlaceTree, recoding: Recoding, release: number): PlaceTree {
  const codes = counties.map(({ fips }) => recoding.get(fips) ?? fips);
  if (new Set(codes).size < codes.length)
    throw new RangeError(
      `Two counties of release ${release} would have one code: a county that took in another one is not renamed, and its counts are others.`,
    );
  return {
    counties: counties.map((county, i) => ({ ...county, fips: codes[i]! })),
    districts: districts.map((district) => ({
      ...district,
      counties: district.counties.map((fips) => recoding.get(fips) ?? fips),
    })),
  };
}
