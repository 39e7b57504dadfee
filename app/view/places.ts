import { jointName } from '@/lib/findings/names';
import { areaKey, countiesOf, joinedAreas } from '@/lib/geography/areas';
import type { AreaTable, Region } from '@/lib/geography/types';
import type { PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';

/** A place with its names. `state` and `district` are the keys of those that hold it, where there are any. */
export interface Place {
  kind: PlaceKind;
  key: PlaceKey;
  /** `Lancaster County`, `Nebraska`, `Kansas central`, `Ness and Lane counties`. */
  name: string;
  /** The same with its state where the name alone could be several: `Lancaster County, NE`. */
  fullName: string;
  state: PlaceKey | null;
  district: PlaceKey | null;
}

/** Names several counties together: `Ness and Lane counties`. */
export type JointName = (counties: readonly string[]) => string;

export function regionPlace(region: Region): Place {
  return {
    kind: 'region',
    key: 'region',
    name: region.name,
    fullName: region.name,
    state: null,
    district: null,
  };
}

export function statePlaces(region: Region): Place[] {
  return region.states
    .map(({ code, name }) => ({
      kind: 'state' as const,
      key: code,
      name,
      fullName: name,
      state: code,
      district: null,
    }))
    .sort(byName);
}

/** Districts by state, then name. */
export function districtPlaces(region: Region): Place[] {
  return region.districts
    .map(({ code, name, state }) => ({
      kind: 'district' as const,
      key: code,
      name,
      fullName: name,
      state,
      district: code,
    }))
    .sort(byStateAndName);
}

/** Counties by state, then name. */
export function countyPlaces(region: Region): Place[] {
  return region.counties
    .map(({ fips, fullName, state, district }) => ({
      kind: 'county' as const,
      key: fips,
      name: fullName,
      fullName: `${fullName}, ${state}`,
      state,
      district,
    }))
    .sort(byStateAndName);
}

/** As `countyPlaces`, with the counties that are counted together in one place. */
export function areaPlaces(region: Region, table: AreaTable | null, joint: JointName = jointName): Place[] {
  const joined = joinedAreas(table);
  const inArea = new Set(joined.flat());
  const areas = joined.map((counties): Place => {
    const members = counties.map((fips) => region.counties.find((county) => county.fips === fips)!);
    const { state, district } = members[0]!;
    const name = joint(members.map((county) => county.name));
    return { kind: 'area', key: areaKey(counties), name, fullName: `${name}, ${state}`, state, district };
  });
  return [...countyPlaces(region).filter(({ key }) => !inArea.has(key)), ...areas].sort(byStateAndName);
}

/** The area that a county is counted in, or the county. */
export function areaOf(
  region: Region,
  table: AreaTable | null,
  place: Place,
  joint: JointName = jointName,
): Place {
  if (place.kind !== 'county') return place;
  return areaPlaces(region, table, joint).find(({ key }) => countiesOf(key).includes(place.key)) ?? place;
}

export function findPlace(region: Region, key: PlaceKey): Place {
  const places = [...statePlaces(region), ...districtPlaces(region), ...countyPlaces(region)];
  return places.find((place) => place.key === key) ?? regionPlace(region);
}

/** The places that hold a place, from the region down to the place itself. */
export function lineage(region: Region, place: Place): Place[] {
  const chain = [regionPlace(region)];
  if (place.state) chain.push(findPlace(region, place.state));
  if (place.district) chain.push(findPlace(region, place.district));
  if (place.kind === 'county' || place.kind === 'area') chain.push(place);
  return chain;
}

function byName(a: Place, b: Place): number {
  return a.name < b.name ? -1 : a.name > b.name ? 1 : 0;
}

function byStateAndName(a: Place, b: Place): number {
  if (a.state === b.state) return byName(a, b);
  return a.state! < b.state! ? -1 : 1;
}
