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
  const counties: { place: string; box: Box }[] = [];
  for (const { properties, geometry } of features) {
    const place = properties?.place as string;
    const isCounty = geometry.type === 'MultiPolygon';
    const own = (isCounty ? geometry.coordinates.flat() : geometry.coordinates) as unknown as Rings;
    rings.set(place, own);
    if (isCounty) counties.push({ place, box: boxOf(own) });
  }
  return {
    of: (place) => rings.get(place),
    at: (point) =>
      counties.find(({ place, box }) => isInBox(point, box) && isInside(point, rings.get(place)!))?.place,
  };
}

type Box = readonly [west: number, south: number, east: number, north: number];

function boxOf(rings: Rings): Box {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [lon, lat] of rings.flat()) {
    box[0] = Math.min(box[0], lon);
    box[1] = Math.min(box[1], lat);
    box[2] = Math.max(box[2], lon);
    box[3] = Math.max(box[3], lat);
  }
  return box;
}

function isInBox([lon, lat]: Point, [west, south, east, north]: Box): boolean {
  return west <= lon && lon <= east && south <= lat && lat <= north;
}

/** Whether a line from the point to the east crosses the rings an odd number of times. */
function isInside([lon, lat]: Point, rings: Rings): boolean {
  let inside = false;
  for (const ring of rings) {
    for (let i = 1; i < ring.length; i++) {
      const [[x1, y1], [x2, y2]] = [ring[i - 1]!, ring[i]!];
      if (y1 > lat !== y2 > lat && lon < x1 + ((lat - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside;
    }
  }
  return inside;
}
