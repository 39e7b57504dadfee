import { countyRings, type FlatRings, ringsContain } from '@/lib/geography/flat-rings';

type Point = readonly [lon: number, lat: number];
export type Rings = readonly (readonly Point[])[];

/** Outlines of places, as the server gives them to the live map. */
export interface Shapes {
  /** Rings of a place of any kind. */
  of(place: string): Rings | undefined;
  /** The county at a point. */
  at(point: Point): string | undefined;
}

/** Outlines by address: each is fetched once, and what failed is asked for again. */
export function createShapes(): (address: string) => Promise<Shapes> {
  const known = new Map<string, Promise<Shapes>>();
  return (address) => {
    const answer = known.get(address) ?? fetchShapes(address);
    known.set(address, answer);
    answer.catch(() => known.delete(address));
    return answer;
  };
}

async function fetchShapes(address: string): Promise<Shapes> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return shapesOf(await response.json());
}

/** Of outlines as they are served (`regionGeoJson`, `areasGeoJson`): counties are polygons, all else is lines. */
export function shapesOf({
  features,
}: GeoJSON.FeatureCollection<GeoJSON.MultiPolygon | GeoJSON.MultiLineString>): Shapes {
  const rings = new Map<string, Rings>();
  const counties: [place: string, outline: FlatRings][] = [];
  for (const { properties, geometry } of features) {
    const place = properties?.place as string;
    const isCounty = geometry.type === 'MultiPolygon';
    rings.set(place, (isCounty ? geometry.coordinates.flat() : geometry.coordinates) as unknown as Rings);
    if (isCounty) counties.push([place, countyRings({ geometry })]);
  }
  return {
    of: (place) => rings.get(place),
    at: ([lon, lat]) => counties.find(([, outline]) => ringsContain(outline, lon, lat))?.[0],
  };
}
