import { areaKey, joinedAreas } from '@/lib/geography/areas';
import type { AreaTable, Region } from '@/lib/geography/types';
import { dissolve, gridRings, type Ring } from './rings';

/** Steps of a degree to which outlines are rounded: about 100 m, a third of a pixel at zoom 9. */
const STEPS = 1000;

const made = new WeakMap<Region, string>();

/**
 * Outlines for a live map as GeoJSON text: a polygon for each county (with `place` alone, since a map that is recoloured reads
 * all that is said of each), in the region's order, and then the outline of each district and state as lines (`place`, and
 * `kind: district` or `state`). It holds no result. Made once for each region and kept.
 */
export function regionGeoJson(region: Region): string {
  const text = made.get(region) ?? JSON.stringify(collection(region));
  made.set(region, text);
  return text;
}

/** Outlines of areas (counties that are counted together) as GeoJSON text: lines with `place`, their counties joined by `+`. */
export function areasGeoJson(region: Region, table: AreaTable): string {
  const geometryOf = new Map(region.counties.map(({ fips, geometry }) => [fips, geometry]));
  const ringsOf = (fips: string) =>
    gridRings(geometryOf.get(fips)!, (lon, lat) => [lon * STEPS, lat * STEPS]);
  const features = joinedAreas(table).map((counties) => ({
    type: 'Feature',
    properties: { kind: 'area', place: areaKey(counties) },
    geometry: { type: 'MultiLineString', coordinates: dissolve(counties.flatMap(ringsOf)).map(positions) },
  }));
  return JSON.stringify({ type: 'FeatureCollection', features });
}

function collection(region: Region): object {
  const rings = new Map(
    region.counties.map(({ fips, geometry }) => [
      fips,
      gridRings(geometry, (lon, lat) => [lon * STEPS, lat * STEPS]),
    ]),
  );
  const counties = region.counties.map(({ fips, geometry }) => ({
    type: 'Feature',
    properties: { place: fips },
    geometry: rounded(geometry),
  }));
  const together = (kind: 'district' | 'state', place: string) => ({
    type: 'Feature',
    properties: { kind, place },
    geometry: {
      type: 'MultiLineString',
      coordinates: dissolve(
        region.counties.filter((county) => county[kind] === place).flatMap(({ fips }) => rings.get(fips)!),
      ).map(positions),
    },
  });
  return {
    type: 'FeatureCollection',
    features: [
      ...counties,
      ...region.districts.map(({ code }) => together('district', code)),
      ...region.states.map(({ code }) => together('state', code)),
    ],
  };
}

function rounded(geometry: Region['counties'][number]['geometry']): object {
  const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
  return {
    type: 'MultiPolygon',
    coordinates: polygons
      .map((coordinates) =>
        gridRings({ type: 'Polygon', coordinates }, (lon, lat) => [lon * STEPS, lat * STEPS]),
      )
      .filter((list) => list.length > 0)
      .map((list) => list.map(positions)),
  };
}

function positions(ring: Ring): number[][] {
  const list: number[][] = [];
  for (let i = 0; i < ring.length; i += 2) list.push([ring[i]! / STEPS, ring[i + 1]! / STEPS]);
  return [...list, list[0]!];
}
