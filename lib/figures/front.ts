import { geoCircle } from 'd3-geo';

/** A front that moves outwards from where it began: for each beginning how far it had gone, and what is written there. */
export interface Front {
  origins: readonly {
    lon: number;
    lat: number;
    rings: readonly { label: string; kilometres: number }[];
  }[];
}

/** A speed of spread as it was told: km a season, null where none can be told, and where and when it began. */
export interface ToldSpeed {
  speed: number | null;
  origins: readonly { lon: number; lat: number; since: number }[];
}

/** The front of a speed at the end of each of these seasons; null where no speed is told. */
export function frontOf({ speed, origins }: ToldSpeed, seasons: readonly number[]): Front | null {
  if (speed === null) return null;
  return {
    origins: origins.map(({ lon, lat, since }) => ({
      ...{ lon, lat },
      rings: seasons.map((season) => ({ label: String(season), kilometres: speed * (season - since) })),
    })),
  };
}

/** A point in degrees: longitude, latitude. */
export type Point = [lon: number, lat: number];

/** One ring round one origin, closed, clockwise from north in steps of 4 degrees. */
export interface Ring {
  label: string;
  line: Point[];
}

/** Mean radius of the Earth, IUGG 1980 (Moritz 2000, Journal of Geodesy 74, 128–133). */
const EARTH_KM = 6371.0088;

/** The rings of a front as lines in degrees, great-circle distances on a sphere. A front that has gone no way has none. */
export function frontRings({ origins }: Front): Ring[] {
  return origins.flatMap(({ lon, lat, rings }) =>
    rings
      .filter(({ kilometres }) => kilometres > 0)
      .map(({ label, kilometres }) => {
        const radius = (kilometres / EARTH_KM) * (180 / Math.PI);
        const { coordinates } = geoCircle().center([lon, lat]).radius(radius).precision(4)();
        return { label, line: coordinates[0] as Point[] };
      }),
  );
}

/** Outlines of the rings for a live map, as lines. */
export function frontGeoJson(front: Front | null): GeoJSON.FeatureCollection {
  const rings = front ? frontRings(front) : [];
  return {
    type: 'FeatureCollection',
    features: rings.map(({ line }) => ({
      type: 'Feature',
      properties: { kind: 'ring' },
      geometry: { type: 'LineString', coordinates: line },
    })),
  };
}

/**
 * Where the label of a ring stands: the southernmost point of it among those that lie in the frame, so that labels of rings
 * round one origin stand below each other; null where the frame shows none of it.
 */
export function ringLabelPoint(ring: Ring, inFrame: (point: Point) => boolean): Point | null {
  const seen = ring.line.filter(inFrame);
  return seen.reduce<Point | null>((best, point) => (best && best[1] <= point[1] ? best : point), null);
}
