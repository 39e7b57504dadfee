import type { Region } from '@/lib/geography/types';
import type { PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';

/** A place with its names. `state` and `district` are the keys of those that hold it, where there are any. */
export interface Place {
  kind: PlaceKind;
  key: PlaceKey;
  /** `Lancaster County`, `Nebraska`, `Kansas central`. */
  name: string;
  /** The same with its state where the name alone could be several: `Lancaster County, NE`. */
  fullName: string;
  state: PlaceKey | null;
  district: PlaceKey | null;
}

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

export function findPlace(region: Region, key: PlaceKey): Place {
  const places = [...statePlaces(region), ...districtPlaces(region), ...countyPlaces(region)];
  return places.find((place) => place.key === key) ?? regionPlace(region);
}

/** The places that hold a place, from the region down to the place itself. */
export function lineage(region: Region, place: Place): Place[] {
  const chain = [regionPlace(region)];
  if (place.state) chain.push(findPlace(region, place.state));
  if (place.district) chain.push(findPlace(region, place.district));
  if (place.kind === 'county') chain.push(place);
  return chain;
}

function byName(a: Place, b: Place): number {
  return a.name < b.name ? -1 : a.name > b.name ? 1 : 0;
}

function byStateAndName(a: Place, b: Place): number {
  if (a.state === b.state) return byName(a, b);
  return a.state! < b.state! ? -1 : 1;
}
