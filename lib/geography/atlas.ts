import type { Feature, MultiPolygon, Polygon } from 'geojson';
import { feature } from 'topojson-client';
import topology from 'us-atlas/counties-10m.json';
import { representativePoint } from './representative-point';
import { states } from './states';
import type { County } from './types';

export { states } from './states';

let cached: County[] | undefined;

/**
 * All 3,231 counties of the outlines file, ascending by FIPS code, without districts. Made once and kept; callers
 * must not change them. Longitude and latitude in degrees (NAD 83 as published).
 * Source: Census Bureau cartographic boundaries through us-atlas 3.0.1, `counties-10m`.
 */
export function atlasCounties(): County[] {
  cached ??= topology.objects.counties.geometries
    .map((geometry) => {
      const fips = String(geometry.id);
      const { geometry: shape, properties } = feature(topology, geometry) as Feature<
        Outline,
        { name: string }
      >;
      const name = properties.name;
      return {
        fips,
        name,
        fullName: fullName(fips, name),
        state: STATE_OF.get(fips.slice(0, 2)) ?? fips.slice(0, 2),
        district: null,
        ...representativePoint(shape),
        geometry: shape,
      };
    })
    .sort((a, b) => (a.fips < b.fips ? -1 : 1));
  return cached;
}

let names: Map<string, string> | undefined;

/** “X County, ST” of a FIPS code, or null where the outlines file has none. */
export function countyName(fips: string): string | null {
  names ??= new Map(atlasCounties().map((county) => [county.fips, `${county.fullName}, ${county.state}`]));
  return names.get(fips) ?? null;
}

type Outline = Polygon | MultiPolygon;

const STATE_OF = new Map(states().map((state) => [state.fips, state.code]));

/**
 * The outlines file holds bare names. Codes from 510 on are independent cities (Virginia, and Baltimore, St. Louis
 * and Carson City); Louisiana has parishes. This is what tells the six pairs apart that share name and state.
 */
function fullName(fips: string, name: string): string {
  const state = fips.slice(0, 2);
  const isCity = Number(fips.slice(2)) >= 510 && ['24', '29', '32', '51'].includes(state);
  if (isCity) return /\bcity$/i.test(name) ? name : `${name} city`;
  if (state === '22') return `${name} Parish`;
  if (state === '02' || state === '11' || Number(state) > 56) return name;
  return `${name} County`;
}
