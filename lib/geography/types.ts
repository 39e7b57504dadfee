import type { MultiPolygon, Polygon } from 'geojson';
import type { Eppo, Fips, Season } from '@/lib/vocabulary/terms';

export type { PlaceKey, PlaceKind } from '@/lib/vocabulary/terms';

/** A county of the region. `lon`/`lat` is a representative point that lies inside the polygon, in degrees. */
export interface County {
  fips: Fips;
  /** As in the outlines file: `Lancaster`, without the word County. */
  name: string;
  /** `Lancaster County`, `St. Louis city`, `Tensas Parish`: tells the six pairs apart that share name and state. */
  fullName: string;
  /** Two-letter postal abbreviation. */
  state: string;
  /** Code of its district, or null where the region has none. */
  district: string | null;
  lon: number;
  lat: number;
  geometry: Polygon | MultiPolygon;
}

/** A group of adjoining counties of one state. */
export interface District {
  code: string;
  name: string;
  state: string;
  counties: Fips[];
}

export interface State {
  /** Two-letter postal abbreviation. */
  code: string;
  /** Two-digit FIPS code. */
  fips: string;
  name: string;
}

/** The areas of one species in one window: every county in which it was screened is in exactly one. */
export interface AreaTable {
  species: Eppo;
  /** First season of the window. */
  first: Season;
  /** FIPS codes of each area's counties, ascending; areas in the order of their first counties. */
  areas: Fips[][];
}

/** The area a programme covers. Counties are sorted by FIPS; neighbours are indices into `counties`. */
export interface Region {
  name: string;
  states: State[];
  counties: County[];
  districts: District[];
  /** For each county the ascending indices of the counties that share at least one arc of its outline. */
  neighbours: number[][];
}
