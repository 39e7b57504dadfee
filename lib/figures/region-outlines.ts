import type { Region } from '@/lib/geography/types';
import { regionProjection, type Size } from './projection';
import { dissolve, gridRings, type Ring, ringPath } from './rings';

/** Paths in half units (draw them inside `scale(0.5)`): each county, district and state by its key. */
export interface RegionOutlines {
  counties: ReadonlyMap<string, string>;
  districts: ReadonlyMap<string, string>;
  states: ReadonlyMap<string, string>;
  /** Outline of several counties together. */
  join: (counties: readonly string[]) => string;
  /** Middle of each state in whole units, where its name stands. */
  labels: ReadonlyMap<string, readonly [number, number]>;
}

/** Name of a state and the point, in degrees, where it stands on the map. */
export interface Anchor {
  name: string;
  lon: number;
  lat: number;
}

/** Where the names of states stand, for a live map. */
export function stateAnchors(region: Region, size: Size): Anchor[] {
  const projection = regionProjection(region, size);
  const { labels } = regionOutlines(region, size);
  return region.states.map(({ code, name }) => {
    const [lon, lat] = projection.invert!([...labels.get(code)!] as [number, number])!;
    return { name, lon, lat };
  });
}

const made = new WeakMap<Region, Map<string, RegionOutlines>>();

/** Of the whole region and of what was last in focus. */
const KEPT_SIZES = 12;

/**
 * Outlines of a region for a picture of this size, accurate to half a unit. Made once for each region and size and
 * kept, since they are the same in every view; of many sizes the last are kept.
 */
export function regionOutlines(region: Region, size: Size): RegionOutlines {
  const sizes = made.get(region) ?? new Map<string, RegionOutlines>();
  made.set(region, sizes);
  const key = `${size.width}×${size.height} ${size.focus ?? ''}`;
  const outlines = sizes.get(key) ?? makeOutlines(region, size);
  sizes.delete(key);
  sizes.set(key, outlines);
  if (sizes.size > KEPT_SIZES) sizes.delete(sizes.keys().next().value!);
  return outlines;
}

function makeOutlines(region: Region, size: Size): RegionOutlines {
  const projection = regionProjection(region, size);
  const toGrid = (lon: number, lat: number): [number, number] => {
    const [x, y] = projection([lon, lat])!;
    return [2 * x, 2 * y];
  };
  const rings = new Map(region.counties.map(({ fips, geometry }) => [fips, gridRings(geometry, toGrid)]));
  const together = (keep: (county: Region['counties'][number]) => boolean) =>
    dissolve(region.counties.filter(keep).flatMap(({ fips }) => rings.get(fips)!));
  const states = new Map(
    region.states.map(({ code }) => [code, together(({ state }) => state === code)] as const),
  );
  return {
    counties: new Map([...rings].map(([fips, list]) => [fips, ringPath(list)])),
    districts: new Map(
      region.districts.map(({ code }) => [code, ringPath(together(({ district }) => district === code))]),
    ),
    states: new Map([...states].map(([code, list]) => [code, ringPath(list)])),
    join: (counties) => ringPath(dissolve(counties.flatMap((fips) => rings.get(fips) ?? []))),
    labels: new Map([...states].map(([code, list]) => [code, middle(list)])),
  };
}

/** Middle of the bounding box of the longest ring, back in whole units. */
function middle(rings: readonly Ring[]): [number, number] {
  const ring = rings.reduce((longest, other) => (other.length > longest.length ? other : longest), []);
  const mid = (axis: 0 | 1) => {
    const values = ring.filter((_, i) => i % 2 === axis);
    return (Math.min(...values) + Math.max(...values)) / 4;
  };
  return [mid(0), mid(1)];
}
